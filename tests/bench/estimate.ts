import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { plainOutlineOf } from '../../src/estimate/job/outline.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { costTable } from '../estimate/cost-priced.ts'
import { testTable, toldBed } from '../estimate/jobs.ts'
import { bag, bulk } from '../estimate/packs/made.ts'

/**
 * `node tests/bench/estimate.ts`: the parts of an estimate as multiples of sorting 1,024 numbers in the same run, beside
 * their limits, for ten beds by every kind of table and for forty mixed ones.
 */
const LIMITS = { ten: { exact: 16, range: 40, whole: 165 }, forty: { whole: 450 } }
const ROUNDS = 12
// In µs; the clock goes by steps of some thousand.
const BATCH = 60_000

const numbers = Float64Array.from({ length: 1024 }, (_, index) => (index * 7919) % 1024)
const sorting = () => numbers.slice().sort()
const three = ['shredded-wood', 'stone', 'compost']
const six = ['shredded-wood', 'dyed-wood', 'bark-nuggets', 'pine-straw', 'compost', 'stone']
const together: Partial<RateTable> = { fetching: { together: 'all', mixed: true } }
const plain = testTable()

line('read ten beds', () => readTold(told(beds(10, three)), plain))
const outlined = jobFor(beds(10, three), plain)
line('outlines', () => outlined.beds.map(plainOutlineOf))
tenBeds('installed rates, three finishes', plain, three)
tenBeds('installed rates, six finishes', plain, six)
tenBeds('cost plus, two of three, each fetched by itself', costTable(), three)
tenBeds('cost plus, all of three, together and mixed', allByCost(together), three)
tenBeds('cost plus, all of six, each fetched by itself', allByCost(), six)
tenBeds('cost plus, all of six, together and mixed', allByCost(together), six)
tenBeds(
  'cost plus, all of six, loose ones apart',
  allByCost({ fetching: { together: 'apart', mixed: true } }),
  six,
)
for (const [name, table] of [
  ['installed rates', plain],
  ['cost plus, together and mixed', allByCost(together)],
] as const) {
  const job = jobFor(mixedBeds(40), table)
  const whole = () => workOutBallpark(job, table, { narrower: true })
  line(`forty mixed beds, ${name}: whole`, whole, LIMITS.forty.whole)
}

function tenBeds(name: string, table: RateTable, finishes: string[]): void {
  console.log(`ten beds, ${name}`)
  const job = jobFor(beds(10, finishes), table)
  // What is known of a bed is kept as long as the bed is; whoever asks again has read it again.
  const fresh = () => ({ ...job, beds: job.beds.map(bed => ({ ...bed })) })
  line('  exact', () => workOutPrice(fresh(), table), LIMITS.ten.exact)
  const quantities = jobQuantities(job, table)
  line('  range', () => spreadsOf(job, quantities, table)(), LIMITS.ten.range)
  line('  whole', () => workOutBallpark(fresh(), table), LIMITS.ten.whole)
}

function beds(count: number, finishes: string[]): BedTold[] {
  const lying = ['unsure', 'thin', 'bare']
  return Array.from({ length: count }, (_, index) =>
    toldBed({
      sizes: { length: `${10 + index}' 6"`, width: 'about 4' },
      measuredBy: 'eye',
      lying: lying[index % 3]!,
      finish: finishes[index % finishes.length]!,
    }),
  )
}

/** Of six finishes, three shapes, all ways of measuring and of planting, and several alike. */
function mixedBeds(count: number): BedTold[] {
  const shapes: Pick<BedTold, 'shape' | 'sizes'>[] = [
    { shape: 'rectangle', sizes: { length: '22', width: 'about 5' } },
    { shape: 'circle', sizes: { diameter: '9' } },
    { shape: 'triangle', sizes: { base: '12', height: '7' } },
  ]
  return beds(count, six).map((bed, index) => ({
    ...bed,
    ...shapes[index % 3]!,
    measuredBy: ['eye', 'paces', 'tape'][index % 3]!,
    planted: ['open', 'half', 'full'][index % 3]!,
    count: 1 + (index % 2),
  }))
}

/** Every finish by its cost, in bags and loose, picked up and delivered. */
function allByCost(changes: Partial<RateTable> = {}): RateTable {
  const table = costTable(changes)
  return {
    ...table,
    finishes: table.finishes.map((finish, index) => ({
      ...finish,
      pricedBy: 'cost' as const,
      packs: [
        bag({
          prices: [
            { from: '0', each: `4.${index}0` },
            { from: '40', each: `3.${index}0` },
          ],
        }),
        bulk({
          prices: [{ from: '0', each: String(26 + 3 * index) }],
          delivered: { fee: '65', freeFrom: '10' },
        }),
      ],
    })),
  }
}

function told(some: BedTold[]) {
  return { beds: some, extras: [], postcode: '' }
}

function jobFor(some: BedTold[], table: RateTable) {
  const reading = readTold(told(some), table)
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
  return reading.job
}

// By turns with the sorting, in batches long enough for the clock, and the least of each: what else the machine does only adds.
function line(what: string, work: () => unknown, most?: number): void {
  let [least, baseline] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]
  batch(work)
  for (let round = 0; round < ROUNDS; round++) {
    least = Math.min(least, batch(work))
    baseline = Math.min(baseline, batch(sorting))
  }
  const ratio = least / baseline
  const limit = most === undefined ? '' : `   limit ${most}${ratio > most ? ', OVER' : ''}`
  console.log(
    `${what.padEnd(52)} ${least.toFixed(0).padStart(6)} µs ${ratio.toFixed(1).padStart(7)} ×${limit}`,
  )
}

// In µs of this thread for each time, so that what else runs on the machine counts for little.
function batch(work: () => unknown): number {
  const start = process.threadCpuUsage()
  let [times, spent] = [0, 0]
  while (spent < BATCH) {
    for (let time = 0; time < 3; time++) work()
    times += 3
    const { user, system } = process.threadCpuUsage(start)
    spent = user + system
  }
  return spent / times
}
