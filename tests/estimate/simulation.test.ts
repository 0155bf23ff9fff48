import fc from 'fast-check'
import { afterAll, describe, expect, it } from 'vitest'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { priceLines } from '../../src/estimate/price/price-lines.ts'
import { shownTax } from '../../src/estimate/price/shown-tax.ts'
import { spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { costTable } from './cost-priced.ts'
import { anyBed, anyVolume } from './generated.ts'
import { jobOf, testTable, toldBed, withTiers } from './jobs.ts'
import { simulate } from './simulation.ts'
import { taxOf } from './taxes.ts'

/** `npm run test:slow` draws more. */
const DRAWS = Number(process.env.DRAWS ?? 10_000)

/** What so many draws may miss a share by, beside a point and a half: three and a half standard errors, one in 2,000. */
const within = (promise: number) => 0.015 + 3.5 * Math.sqrt((promise * (1 - promise)) / DRAWS)

interface Simulated {
  name: string
  beds: BedTold[]
  table: RateTable
  extras?: string[]
}

const misses: { name: string; inside: number; promise: number; heaped: boolean }[] = []

/** The share of simulated prices inside the range before its step, and whether one price alone holds over 1 %. */
function shareInside({ beds, table, extras = [] }: Simulated, seed: number) {
  const job = jobOf(beds, table, extras)
  const quantities = jobQuantities(job, table)
  const { factor, likely } = shownTax(priceLines(job, quantities, table), '', table)
  const told = spreadsOf(job, quantities, table, factor.toNumber())()
  const cents = likely.toNumber() * 100
  const [low, high] = [Math.min(told.low, cents), Math.max(told.high, cents)]
  const tax = table.tax?.inRanges ? Number(table.tax.rate) : 0
  const counts = new Map<number, number>()
  let inside = 0
  for (const price of simulate(beds, table, DRAWS, seed, { extras, tax })) {
    if (price >= low && price <= high) inside++
    counts.set(price, (counts.get(price) ?? 0) + 1)
  }
  return { inside: inside / DRAWS, heaped: Math.max(...counts.values()) > DRAWS / 100 }
}

function holds(job: Simulated, seed: number): void {
  const { inside, heaped } = shareInside(job, seed)
  const promise = Number(job.table.promise)
  misses.push({ name: job.name, inside, promise, heaped })
  expect(inside).toBeGreaterThanOrEqual(promise - within(promise))
  if (!heaped) expect(inside).toBeLessThanOrEqual(promise + within(promise))
}

const plain = testTable()
const tiered = withTiers({ ...plain, minimumCharge: '90' }, ['2', '5'], [0.85, 0.7])
const taxed = testTable({ tax: taxOf({ inRanges: true }) })
const tables: [string, RateTable][] = [
  ['installed rates', plain],
  ['sizes of job and a minimum', tiered],
  ['a tax in the range', taxed],
  ['prices by cost', costTable()],
  ['a promise of 90 %', { ...plain, promise: '0.90' }],
]
const extras = [[], ['edging'], ['weeding'], ['edging', 'weeding']]

const anyJob = fc.array(fc.oneof({ weight: 9, arbitrary: anyBed }, { weight: 1, arbitrary: anyVolume }), {
  minLength: 1,
  maxLength: 4,
})
// How far the pile is only matters by cost: cost-simulation.test.ts sees to it.
const nearby = ({ carry: _, stairs: __, ...bed }: BedTold): BedTold => bed

const generated: Simulated[] = fc.sample(anyJob, { seed: 20_260_301, numRuns: 60 }).map((beds, index) => {
  const [name, table] = tables[index % tables.length]!
  return {
    name: `generated ${index}, ${name}`,
    beds: beds.map(nearby),
    table,
    extras: extras[index % extras.length]!,
  }
})

const SHAPES: [string, Record<string, string>][] = [
  ['rectangle', { length: '30', width: '8' }],
  ['strip', { length: '60', width: '2' }],
  ['curvy', { length: '25', width: '9' }],
  ['circle', { diameter: '12' }],
  ['circle-round', { round: '40' }],
  ['half-circle', { diameter: '18' }],
  ['quarter-circle', { radius: '11' }],
  ['oval', { length: '20', width: '9' }],
  ['triangle', { base: '22', height: '10' }],
  ['ring', { outer: '14', inner: '4' }],
  ['tree-ring', { inner: '16', band: '2' }],
  ['two-arms', { length: '20', width: '3', armLength: '17', armWidth: '3' }],
  ['sides', { a: '15', b: '13', c: '14' }],
  ['trapezoid', { base: '20', top: '9', height: '12' }],
  ['l-shape', { length: '30', width: '20', cutLength: '12', cutWidth: '9' }],
  ['offsets', { spacing: '4', offsets: '3 6 7 5 8 6 4' }],
  ['uneven-offsets', { spacings: '5 5 3 8 8 2', offsets: '2 6 4 3 9 7 1' }],
  ['radii', { radii: '10 12 9 11 8 10 12 10' }],
  ['area', { area: '220' }],
]

/** Every shape, by each way of measuring that it may be told by. */
const shaped: Simulated[] = SHAPES.flatMap(([shape, sizes], index) =>
  ['tape', 'paces', 'eye']
    .filter(measuredBy => shape !== 'sides' || measuredBy === 'tape')
    .map((measuredBy, way) => ({
      name: `${shape} by ${measuredBy}`,
      beds: [toldBed({ shape, sizes, measuredBy, planted: (['open', 'half', 'full'] as const)[way]! })],
      table: plain,
      extras: extras[(index + way) % 2]!,
    })),
)

const bed = (changes: Partial<BedTold>) => [toldBed(changes)]
const special: [string, BedTold[], string[]?, RateTable?][] = [
  ['a layer not known, by eye', bed({ measuredBy: 'eye', lying: 'unsure' })],
  ['forty beds by paces', bed({ measuredBy: 'paces', count: 40, lying: 'thin' })],
  [
    'a guess among tape',
    [toldBed(), toldBed({ sizes: { length: 'about 30', width: 'about 8' }, finish: 'stone' })],
  ],
  ['three trees cut out', bed({ cutOuts: '3 of 2.5 ft across; 4 x 3 ft', measuredBy: 'eye' })],
  ['half of it cut out', bed({ cutOuts: '12.5 x 4 ft', measuredBy: 'eye' })],
  ['a guess cut out of what was taped', bed({ cutOuts: 'about 8 x 4 ft' })],
  ['a new bed where nobody knows what lies', bed({ work: 'new', lying: 'unsure', measuredBy: 'eye' })],
  [
    'a long strip with its edge',
    bed({ shape: 'strip', sizes: { length: '80', width: '2' }, measuredBy: 'eye' }),
    ['edging'],
  ],
  ['the flattest triangle by its sides', bed({ shape: 'sides', sizes: { a: '8', b: '30', c: '30' } })],
  ['a triangle with a wide corner', bed({ shape: 'sides', sizes: { a: '10', b: '10', c: '17' } })],
  ['a promise of a half', bed({ measuredBy: 'eye' }), [], { ...plain, promise: '0.50' }],
  ['a promise of 95 %', bed({ measuredBy: 'eye' }), [], { ...plain, promise: '0.95' }],
]
const on = (...layers: [what: string, depth: string][]) => ({
  finish: 'stone',
  layers: layers.map(([what, depth]) => ({ what, depth })),
})
const layered: typeof special = [
  ['stone on compost, by eye', bed({ ...on(['compost', '2']), measuredBy: 'eye', planted: 'half' })],
  [
    'stone on compost, where nobody knows what lies',
    bed({ ...on(['compost', '3']), measuredBy: 'paces', lying: 'unsure' }),
  ],
  [
    'stone on bark on compost beside a bed of compost, by eye',
    [
      toldBed({ ...on(['bark-nuggets', '1'], ['compost', '2']), measuredBy: 'eye' }),
      toldBed({ finish: 'compost', sizes: { length: '30', width: '6' }, measuredBy: 'eye' }),
    ],
  ],
  [
    'stone on compost by cost, one of three beds',
    [
      toldBed({ ...on(['compost', '2']), measuredBy: 'eye', count: 2 }),
      toldBed({ measuredBy: 'eye', lying: 'thin' }),
    ],
    [],
    costTable(),
  ],
]
const specials = [...special, ...layered].map(([name, beds, extras = [], table = plain]) => ({
  name,
  beds,
  extras,
  table,
}))

const jobs = [...generated, ...shaped, ...specials]

describe('against independent draws of sizes, forms, plants, layers and edges, the promise holds', () => {
  it.each(jobs.map((job, index) => ({ ...job, index })))('for $name', ({ index, ...job }) => {
    holds(job, 100 + index)
  })

  it('on 120 jobs at least', () => expect(jobs.length).toBeGreaterThanOrEqual(120))
})

afterAll(() => {
  const off = misses.filter(({ heaped }) => !heaped).map(one => 100 * (one.inside - one.promise))
  const [least, most] = [Math.min(...off), Math.max(...off)].map(points => points.toFixed(2))
  process.stdout.write(
    `simulated: ${misses.length} jobs of ${DRAWS} draws, ${off.length} without a heap: ${least} to ${most} points off\n`,
  )
})
