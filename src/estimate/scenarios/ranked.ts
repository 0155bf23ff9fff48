import { lazily } from '../../lib/once.ts'

/**
 * The value that would stand at a rank, from 0, if the values were sorted; puts them partly in order. Quicker than
 * sorting them all (C. A. R. Hoare, "Algorithm 65: find", Communications of the ACM 4, 1961). `from` is a smaller rank
 * that was asked for before: what stands before it then isn't looked at again.
 */
export function ranked(values: Float64Array, rank: number, from = 0): number {
  let [first, last] = [from, values.length - 1]
  while (first < last) {
    const pivot = values[rank]!
    let [left, right] = [first, last]
    while (left <= right) {
      while (values[left]! < pivot) left++
      while (values[right]! > pivot) right--
      if (left > right) break
      const swapped = values[left]!
      values[left] = values[right]!
      values[right] = swapped
      left++
      right--
    }
    if (right < rank) first = left
    if (left > rank) last = right
  }
  return values[rank]!
}

/**
 * Figures that are dear to work out, each with what it is at least and at most; `closer` brings these closer to each other
 * for one of them, and `exactAt` works one out.
 */
export interface Bounded {
  atLeast: Float64Array
  atMost: Float64Array
  closer(index: number): void
  exactAt(index: number): number
}

/** The value that would stand at a rank; `from` is a smaller rank that was asked for before. */
export type AtRank = (rank: number, from?: number) => number

/** Ranks values of which maybe only bounds are known: what stands at a rank, and what it is at least and at most. */
export interface Ranking {
  at: AtRank
  atLeast: AtRank
  atMost: AtRank
}

/** Ranks what is known. */
export function rankedValues(values: Float64Array): Ranking {
  const sorted = values.slice()
  const at: AtRank = (rank, from) => ranked(sorted, rank, from)
  return { at, atLeast: at, atMost: at }
}

/**
 * Ranks the sums of known figures and so many times the bounded ones, and works out only those that may stand at the rank
 * asked for: whatever is at most less than the least that may stand there stands before it. What is worked out is kept as
 * bounds.
 */
export function rankedSums(known: Float64Array, times: number, bounded: Bounded): Ranking {
  const { atLeast, atMost } = bounded
  const leasts = lazily(() => sums(known, times, atLeast))
  const mosts = lazily(() => sums(known, times, atMost))
  const at = (rank: number, from?: number) => {
    const [lowest, highest] = [ranked(leasts(), rank, from), ranked(mosts(), rank, from)]
    const open: number[] = []
    let before = 0
    for (let index = 0; index < known.length; index++) {
      const sure = known[index]!
      if (sure + times * atMost[index]! < lowest) before++
      else if (sure + times * atLeast[index]! <= highest) open.push(index)
    }
    return rankedOpen(open, rank - before, known, times, bounded)
  }
  return {
    at,
    atLeast: (rank, from) => ranked(leasts(), rank, from),
    atMost: (rank, from) => ranked(mosts(), rank, from),
  }
}

/**
 * What stands at a rank of a few of them: those about the middle of what it may be are brought closer, and worked out where
 * that doesn't do, over and over.
 */
function rankedOpen(open: number[], rank: number, known: Float64Array, times: number, bounded: Bounded) {
  const { atLeast, atMost } = bounded
  const [least, most] = [new Float64Array(open.length), new Float64Array(open.length)]
  for (let place = 0; place < open.length; place++) look(place)
  const isCloser = new Uint8Array(open.length)
  const sorted = new Float64Array(open.length)
  const atRank = (values: Float64Array) => {
    sorted.set(values)
    return ranked(sorted, rank)
  }
  for (;;) {
    const [lowest, highest] = [atRank(least), atRank(most)]
    const middle = (lowest + highest) / 2
    let [last, about] = [-1, false]
    for (let place = 0; place < open.length; place++) {
      if (most[place]! < lowest || least[place]! > highest || least[place] === most[place]) continue
      last = place
      if (least[place]! > middle || most[place]! < middle) continue
      about = true
      comeCloser(place)
    }
    if (last < 0) return lowest
    if (!about) comeCloser(last)
  }

  function comeCloser(place: number): void {
    const index = open[place]!
    if (isCloser[place] === 0) bounded.closer(index)
    else atLeast[index] = atMost[index] = bounded.exactAt(index)
    isCloser[place] = 1
    look(place)
  }

  function look(place: number): void {
    const index = open[place]!
    least[place] = known[index]! + times * atLeast[index]!
    most[place] = known[index]! + times * atMost[index]!
  }
}

function sums(known: Float64Array, times: number, more: Float64Array): Float64Array {
  const sums = new Float64Array(known.length)
  for (let index = 0; index < sums.length; index++) sums[index] = known[index]! + times * more[index]!
  return sums
}
