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

/** Figures that are dear to work out, each with what it is at least and at most; `exactAt` works one out. */
export interface Bounded {
  atLeast: Float64Array
  atMost: Float64Array
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

// So few that are open are worked out at once.
const FEW = 48

/**
 * Ranks the sums of known figures and so many times the bounded ones, and works out only those that may stand at the rank
 * asked for: whatever is at most less than the least that may stand there stands before it. Where that leaves many, those
 * about the middle of it are worked out first. What is worked out is kept as bounds.
 */
export function rankedSums(known: Float64Array, times: number, bounded: Bounded): Ranking {
  const { atLeast, atMost } = bounded
  const [leasts, mosts] = [sums(known, times, atLeast), sums(known, times, atMost)]
  // Ranking puts those out of their order.
  let [least, most] = [leasts, mosts]
  const workOut = (index: number) => {
    atLeast[index] = atMost[index] = bounded.exactAt(index)
    least[index] = most[index] = known[index]! + times * atLeast[index]!
  }
  const openWithin = (lowest: number, highest: number) => {
    let count = 0
    for (let index = 0; index < known.length; index++)
      if (most[index]! >= lowest && least[index]! <= highest && least[index] !== most[index]) count++
    return count
  }
  const at = (rank: number, from?: number) => {
    if (least === leasts) [least, most] = [sums(known, times, atLeast), sums(known, times, atMost)]
    let [lowest, highest] = [ranked(leasts, rank, from), ranked(mosts, rank, from)]
    for (let open = openWithin(lowest, highest); open > FEW; ) {
      const middle = (lowest + highest) / 2
      for (let index = 0; index < known.length; index++)
        if (most[index]! > middle && least[index]! < middle) workOut(index)
      leasts.set(least)
      mosts.set(most)
      ;[lowest, highest] = [ranked(leasts, rank), ranked(mosts, rank)]
      const still = openWithin(lowest, highest)
      if (still === open) break
      open = still
    }
    const values = new Float64Array(known.length)
    let [before, count] = [0, 0]
    for (let index = 0; index < known.length; index++) {
      if (most[index]! < lowest) before++
      else if (least[index]! <= highest) {
        if (least[index] !== most[index]) workOut(index)
        values[count++] = least[index]!
      }
    }
    return ranked(values.subarray(0, count), rank - before)
  }
  return {
    at,
    atLeast: (rank, from) => ranked(leasts, rank, from),
    atMost: (rank, from) => ranked(mosts, rank, from),
  }
}

function sums(known: Float64Array, times: number, more: Float64Array): Float64Array {
  const sums = new Float64Array(known.length)
  for (let index = 0; index < sums.length; index++) sums[index] = known[index]! + times * more[index]!
  return sums
}
