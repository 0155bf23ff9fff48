import type { Options } from './options.ts'

/** What a finish may be bought in, and for what needs: above `over` and up to `upTo`, in yd³|m³. */
export interface Known {
  over: number
  upTo: number
  options: Options
}

/** What a finish may be bought in for many needs: the row of each on a shelf. */
export interface Column {
  shelf: Shelf
  rows: Uint16Array
}

// A bucket of needs is this part of the least that can be bought: mostly all in one have the same row.
const PER_LEAST = 8
// Needs beyond so many buckets are looked for among all rows.
const MOST_BUCKETS = 65_536

/**
 * What is known of what a finish may be bought in, row by row; the first row is of nothing. All figures of all rows stand in
 * one array, as do the places of what may be best where trips needn't be whole: ranges go through them thousands of times.
 */
export class Shelf {
  readonly options: Options[] = []
  /** The figures of all rows, one purchase after another: goods, load and what it uses of each limit. */
  figures = new Float64Array(512)
  /** Places in `figures` of the purchases that may be best by one figure, row by row and figure by figure. */
  leanest = new Int32Array(512)
  /** Of each row and each figure but the goods where these places begin, and those of the next after them. */
  leanestFrom = new Int32Array(512)
  /** How many figures each purchase has. */
  readonly figureCount: number
  private filled = 0
  private readonly perBucket: number
  private readonly find: (need: number) => Known
  /** By bucket the row that was found last. */
  private last = new Uint16Array(512)
  private over = new Float64Array(64)
  private upTo = new Float64Array(64)
  /** All rows, by up to what need they hold. */
  private readonly rising: number[] = []

  /** `least` is the least that is bought at all, in yd³|m³. */
  constructor(nothing: Options, least: number, find: (need: number) => Known) {
    this.perBucket = PER_LEAST / least
    this.find = find
    this.figureCount = nothing.cheapest.uses.length + 2
    this.add({ over: 0, upTo: 0, options: nothing })
  }

  rowOf(need: number): number {
    if (!(need > 0)) return 0
    const { last, over, upTo } = this
    const bucket = Math.floor(need * this.perBucket)
    const row = bucket < last.length ? last[bucket]! : 0
    return need > over[row]! && need <= upTo[row]! ? row : this.lookFor(need, bucket)
  }

  /** The rows of so many times some volumes. */
  column(volumes: Float64Array, times: number): Column {
    const rows = new Uint16Array(volumes.length)
    for (let point = 0; point < rows.length; point++) rows[point] = this.rowOf(volumes[point]! * times)
    return { shelf: this, rows }
  }

  private lookFor(need: number, bucket: number): number {
    const { rising, over, upTo } = this
    let [from, to] = [0, rising.length]
    while (from < to) {
      const middle = (from + to) >> 1
      if (upTo[rising[middle]!]! < need) from = middle + 1
      else to = middle
    }
    const found = from < rising.length && need > over[rising[from]!]! ? rising[from]! : null
    const row = found ?? this.add(this.find(need))
    if (found === null) rising.splice(from, 0, row)
    if (bucket < MOST_BUCKETS) {
      this.last = longer(this.last, bucket + 1)
      this.last[bucket] = row
    }
    return row
  }

  private add({ over, upTo, options }: Known): number {
    const row = this.options.push(options) - 1
    if (row >= this.over.length) {
      this.over = longer(this.over, row + 1)
      this.upTo = longer(this.upTo, row + 1)
    }
    this.over[row] = over
    this.upTo[row] = upTo
    this.write(row, options)
    return row
  }

  private write(row: number, { figures, leanest }: Options): void {
    const [from, things] = [this.filled, this.figureCount - 1]
    this.filled += figures.length
    this.figures = longer(this.figures, this.filled)
    this.figures.set(figures, from)
    this.leanestFrom = longer(this.leanestFrom, (row + 1) * things + 1)
    let next = this.leanestFrom[row * things]!
    this.leanest = longer(this.leanest, next + leanest.length)
    for (let thing = 0; thing < things; thing++) {
      for (let rank = leanest[thing]!; rank < leanest[thing + 1]!; rank++)
        this.leanest[next++] = from + leanest[rank]!
      this.leanestFrom[row * things + thing + 1] = next
    }
  }
}

/** Where the purchase of a row stands that is best by one limit where trips needn't be whole and cost so much each. */
export function leanestAt(shelf: Shelf, row: number, limit: number, each: number): number {
  const { figures, leanest, leanestFrom, figureCount } = shelf
  const place = row * (figureCount - 1) + limit + 1
  const last = leanestFrom[place + 1]!
  let rank = leanestFrom[place]!
  let best = leanest[rank]!
  if (rank + 1 === last) return best
  let least = figures[best]! + each * figures[best + limit + 2]!
  for (rank++; rank < last; rank++) {
    const at = leanest[rank]!
    const cost = figures[at]! + each * figures[at + limit + 2]!
    if (cost < least) [least, best] = [cost, at]
  }
  return best
}

/** What a finish may be bought in for the need at a point. */
export function optionsAt({ shelf, rows }: Column, point: number): Options {
  return shelf.options[rows[point]!]!
}

/** An array as long as that, or twice as long, with what it has. */
function longer<Numbers extends Float64Array | Int32Array | Uint16Array>(
  numbers: Numbers,
  least: number,
): Numbers {
  if (numbers.length >= least) return numbers
  const Kind = numbers.constructor as new (length: number) => Numbers
  const more = new Kind(Math.max(least, 2 * numbers.length))
  more.set(numbers)
  return more
}
