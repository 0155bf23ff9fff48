import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import { plainOutlineOf } from '../../src/estimate/job/outline.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { spreadsOf } from '../../src/estimate/scenarios/range.ts'
import { costTable } from '../estimate/cost-priced.ts'
import { testTable, toldBed } from '../estimate/jobs.ts'

/**
 * `node tests/bench/estimate.ts`: times for ten beds, also as ratios to sorting 1,024 numbers in the same run; at the end
 * beside their limits, on one core, those of a table with packs, breaks, carriers and two finishes priced by cost.
 */
const table = testTable()
const slugs = ['shredded-wood', 'stone', 'compost']
const lying = ['unsure', 'thin', 'bare']
const told = {
  beds: Array.from({ length: 10 }, (_, index) =>
    toldBed({
      sizes: { length: `${10 + index}' 6"`, width: 'about 4' },
      measuredBy: 'eye',
      lying: lying[index % 3]!,
      finish: slugs[index % 3]!,
    }),
  ),
  extras: [],
  postcode: '',
}
const reading = readTold(told, table)
if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
const { job } = reading
const quantities = jobQuantities(job, table)
const numbers = Float64Array.from({ length: 1024 }, (_, index) => (index * 7919) % 1024)

const baseline = microseconds(() => numbers.slice().sort())
report('sort 1,024 numbers (the baseline)', baseline)
report(
  'read ten beds',
  microseconds(() => readTold(told, table)),
)
report(
  'exact price',
  microseconds(() => workOutPrice(job, table)),
)
report(
  'range',
  microseconds(() => spreadsOf(job, quantities, table)()),
)
report(
  'ballpark with what would narrow it',
  microseconds(() => workOutBallpark(job, table)),
)
report(
  'outlines',
  microseconds(() => job.beds.map(plainOutlineOf)),
)

const priced = costTable()
const costed = readTold(told, priced)
if (!costed.ok) throw new Error(JSON.stringify(costed.faults))
const byCost = jobQuantities(costed.job, priced)
console.log('with packs, breaks, carriers and two finishes priced by cost')
report(
  'exact price',
  microseconds(() => workOutPrice(costed.job, priced)),
  300,
)
report(
  'range',
  microseconds(() => spreadsOf(costed.job, byCost, priced)()),
  400,
)
report(
  'whole ballpark',
  microseconds(() => workOutBallpark(costed.job, priced)),
  3000,
)

// The least of some rounds: what else the machine does only adds.
function microseconds(work: () => unknown): number {
  let least = Number.POSITIVE_INFINITY
  for (let round = 0; round < 12; round++) {
    const start = performance.now()
    for (let time = 0; time < 50; time++) work()
    least = Math.min(least, ((performance.now() - start) / 50) * 1000)
  }
  return least
}

function report(what: string, time: number, most?: number): void {
  const ratio = (time / baseline).toFixed(1).padStart(7)
  const limit = most === undefined ? '' : `   limit ${most} µs${time > most ? ', OVER' : ''}`
  console.log(`${what.padEnd(36)} ${time.toFixed(0).padStart(6)} µs ${ratio} ×${limit}`)
}
