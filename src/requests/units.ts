import { narrowsUnasked } from '../estimate/ballpark/ballpark.ts'
import { amountSent, MOST_BEDS } from '../estimate/reading/read-beds.ts'
import { fieldOf } from '../estimate/reading/told-fields.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'

/** From so many units on work is done in another thread: less isn't worth the way there. */
export const LONG = 5

/** What is drawn of a form: its page, what of it follows the typing, the page that asks for name and address, or what comes of sending that in. */
export type Drawn = 'form' | 'live' | 'contact' | 'taking'

interface Weight {
  start: number
  bed: number
}

// As tests/bench/units.ts measures them.
const RANGE: Weight = { start: 0.5, bed: 0.1 }
const DRAWN: Record<Drawn, Weight> = {
  form: { start: 0.5, bed: 0.3 },
  live: { start: 0.3, bed: 0.15 },
  contact: { start: 0.5, bed: 0.2 },
  taking: { start: 0.5, bed: 0.2 },
}
const SENT: Weight = { start: 0.5, bed: 0.25 }
const PAPER: Weight = { start: 60, bed: 3 }
// Less than a network ever has at once, see limits/budget.ts.
const PAPER_MOST = 300
const FIELD = 0.003
const KIB = 0.1
const FIGURE = 0.05
const NARROWED_BED = 0.3
const NARROWED_FIGURE = 0.07
// A range of each finish that is bought and fetched with others; what would narrow one is a range more.
const RIDING: Record<RateTable['fetching']['together'], number> = { each: 0, all: 0.5, apart: 0.7 }

/** How much work a form is by a table, in units of limits/budget.ts, told by the names of its fields. */
export function unitsOfForm(fields: unknown, drawn: Drawn, table: RateTable): number {
  const names = Object.keys((fields ?? {}) as object)
  // Where none is told, an empty one is shown.
  const beds = Math.max(1, bedsIn(names))
  const narrows = narrowsUnasked(beds)
  const narrower = narrows ? NARROWED_BED : 0
  const { start, bed } = DRAWN[drawn]
  // Where it can't be taken yet, the page is drawn with the range once more.
  const ranges = drawn === 'taking' ? 2 : 1
  const ofRanges =
    ranges * (RANGE.start + beds * (RANGE.bed + narrower) + unitsOfRiding(beds, narrows, table))
  return ofRanges + start + beds * bed + names.length * FIELD
}

/** How much work the beds are by a table that another program sent; of lists each figure counts. */
export function unitsOfTold(body: unknown, table: RateTable): number {
  const { beds, figures } = amountSent(body)
  const narrower = fieldOf(body, 'narrower') ?? narrowsUnasked(beds)
  const [bed, figure] = narrower ? [NARROWED_BED, NARROWED_FIGURE] : [0, 0]
  const riding = unitsOfRiding(beds, Boolean(narrower), table)
  return RANGE.start + beds * (RANGE.bed + bed) + figures * (FIGURE + figure) + riding
}

// Each bed may be of other finishes, with what lies beneath them.
function unitsOfRiding(beds: number, narrower: boolean, { finishes, fetching }: RateTable): number {
  const bought = finishes.filter(({ pricedBy, packs }) => pricedBy === 'cost' && packs.length > 0)
  const each = 1 + Math.max(0, ...finishes.map(({ layers }) => layers.length))
  return Math.min(beds * each, bought.length) * RIDING[fetching.together] * (narrower ? 2 : 1)
}

/** How much work it is to draw beds that were sent in, in units. */
export function unitsOfBeds(beds: number): number {
  return SENT.start + beds * SENT.bed
}

/** How much work it is to make a price with so many beds a PDF, in units: mostly to embed its typeface. */
export function unitsOfPaper(beds: number): number {
  return Math.min(PAPER.start + beds * PAPER.bed, PAPER_MOST)
}

/** How much work it is to take in what was sent, however little it says. */
export function unitsOfBytes(bytes: number): number {
  return (bytes / 1024) * KIB
}

function bedsIn(names: string[]): number {
  const numbers = new Set<string>()
  for (const name of names) {
    if (name.startsWith('beds.')) numbers.add(name.slice(5, name.indexOf('.', 5)))
  }
  return Math.min(numbers.size, MOST_BEDS)
}
