import fc from 'fast-check'
import { expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { Job } from '../../src/estimate/job/bed.ts'
import { newestMethod } from '../../src/estimate/job/methods/all-methods.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { type Spread, spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { Change } from '../../src/estimate/scenarios/scenario-beds.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { anyCostTable } from './cost-priced.ts'
import { anyBed } from './generated.ts'
import { jobOf, testTable, toldBed } from './jobs.ts'

/** Every figure of the job that could be measured better: sizes by tape, and what lies there. */
function changesOf(job: Job, table: RateTable): (Change & { what: string })[] {
  return job.beds.flatMap((bed, index) => {
    const [now, taped] = [newestMethod.errors(bed, table), newestMethod.errors(bed, table, 'tape')]
    const lyingError = Number(table.lyingMeasured)
    const lies = bed.work !== 'new' && bed.layers.length === 0 && bed.lying.s.gt(lyingError)
    return [
      ...(now.shared > taped.shared || now.own > taped.own
        ? [{ what: 'sizes', bed: index, errors: taped }]
        : []),
      ...(lies ? [{ what: 'lying', bed: index, lyingError }] : []),
    ]
  })
}

const anyJob = fc.tuple(
  fc.array(anyBed, { minLength: 2, maxLength: 6 }),
  fc.oneof(anyCostTable, fc.constant(testTable())),
)

it('tries some scenarios of each change, and never finds less than all of them leave', () => {
  fc.assert(
    fc.property(anyJob, ([beds, table]) => {
      const job = jobOf(beds, table)
      const spreadOf = spreadsOf(job, jobQuantities(job, table), table)
      for (const { what: _, ...change } of changesOf(job, table)) {
        const [within, about] = [spreadOf.within(change), spreadOf.about(change)]
        expect(within.low).toBeGreaterThanOrEqual(about.low)
        expect(within.high).toBeLessThanOrEqual(about.high)
      }
    }),
    { numRuns: 15 },
  )
})

// Of one or two beds by eye one mostly matters.
const anyByEye = fc.record({
  sizes: fc.record({
    length: fc.integer({ min: 5, max: 60 }).map(String),
    width: fc.integer({ min: 2, max: 10 }).map(String),
  }),
  lying: fc.constantFrom('bare', 'unsure'),
  finish: fc.constantFrom('shredded-wood', 'compost', 'stone'),
})
const jobByEye = fc.tuple(
  fc.array(anyByEye, { minLength: 1, maxLength: 3 }),
  fc.oneof(anyCostTable, fc.constant(testTable())),
)

it('names what leaves the narrowest range, the first of those that leave the same', () => {
  fc.assert(
    fc.property(jobByEye, ([beds, table]) => {
      const job = jobOf(
        beds.map(bed => ({ ...bed, measuredBy: 'eye' })),
        table,
      )
      const { narrower, range } = workOutBallpark(job, table)
      const spreadOf = spreadsOf(job, jobQuantities(job, table), table)
      const likely = Number(range.likely) * 100
      const width = ({ low, high }: Spread) => Math.max(high, likely) - Math.min(low, likely)
      const tried = changesOf(job, table).map(({ what, ...change }) => ({
        what,
        bed: change.bed,
        left: width(spreadOf.about(change)),
      }))
      if (tried.length === 0 || narrower === null || narrower.what === 'visit') return
      const least = tried.reduce((best, one) => (one.left < best.left ? one : best))
      expect([narrower.what, narrower.bed]).toEqual([least.what, least.bed])
    }),
    { numRuns: 30 },
  )
})

it('names the first of beds that are alike', () => {
  const bed = toldBed({ measuredBy: 'eye', sizes: { length: '30', width: '9' } })
  const small = toldBed({ measuredBy: 'eye', sizes: { length: '6', width: '3' } })
  const { narrower } = workOutBallpark(jobOf([small, bed, bed]), testTable())
  expect(narrower).toMatchObject({ what: 'sizes', bed: 1 })
})

it('takes changes to be alike only where they leave the same', () => {
  const table = testTable()
  const bed = toldBed({ measuredBy: 'eye', sizes: { length: '30', width: '9' }, lying: 'unsure' })
  const others = [
    { ...bed, count: 2 },
    { ...bed, sizes: { length: '30', width: '9.5' } },
    { ...bed, finish: 'compost' },
    { ...bed, depth: '4' },
    { ...bed, lying: 'thin' },
    { ...bed, planted: 'half' },
    { ...bed, carry: '200 ft' },
    { ...bed, measuredBy: 'paces' },
  ]
  const job = jobOf([bed, bed, ...others], table, ['edging'])
  const { alike, about } = spreadsOf(job, jobQuantities(job, table), table)
  const all = changesOf(job, table)
  const of = (bed: number, what: string) => {
    const { what: _, ...change } = all.find(one => one.bed === bed && one.what === what)!
    return change
  }
  for (const what of ['sizes', 'lying']) {
    expect(alike(of(0, what), of(1, what))).toBe(true)
    expect(about(of(0, what))).toEqual(about(of(1, what)))
    for (let index = 2; index < job.beds.length; index++) {
      const other = all.find(one => one.bed === index && one.what === what)
      if (other) expect([what, index, alike(of(0, what), other)]).toEqual([what, index, false])
    }
  }
  expect(alike(of(0, 'sizes'), of(1, 'lying'))).toBe(false)
})

it('keeps a bed with an extra of its own apart from one without', () => {
  const table = testTable()
  const bed = toldBed({ measuredBy: 'eye', sizes: { length: '30', width: '9' } })
  const job = jobOf([bed, bed], table)
  const [extra] = table.extras
  const own: Job = {
    ...job,
    beds: job.beds.map((one, index) => (index === 0 ? { ...one, extras: [extra!] } : one)),
  }
  const { alike } = spreadsOf(own, jobQuantities(own, table), table)
  const [first, second] = changesOf(own, table).filter(({ what }) => what === 'sizes')
  expect(alike(first!, second!)).toBe(false)
})
