import { describe, expect, it } from 'vitest'
import { methodOf } from '../../src/estimate/job/methods/all-methods.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { plainTerms, type Terms } from '../../src/estimate/job/terms.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { jobOf } from './jobs.ts'
import { both, hours, priceOf, twoMen } from './two-men.ts'

describe('the drive', () => {
  const table = twoMen({
    travel: [
      { postcodes: ['787*'], charge: '0', drive: '1.5', driven: null },
      { postcodes: ['786*'], charge: '0', drive: null, driven: null },
    ],
  })

  it('is as long as the zone says, and else as usual', () => {
    expect(hours(10, table, '78701').drive).toBe('3.00')
    expect(hours(10, table, '78601').drive).toBe('1.00')
    expect(hours(10, table, '10001').drive).toBe('1.00')
  })

  it('as long as the day is one day’s, for want of a better figure', () => {
    expect(hours(10, twoMen({ labor: { drive: '8' } })).drive).toBe('16.00')
  })
})

describe('the least hours', () => {
  const table = twoMen({ labor: { least: '4' } })

  it('are paid and charged where a job takes fewer', () => {
    expect(hours(1, table)).toEqual({ spread: '1.00', 'set-up': '0.50', drive: '1.00', least: '1.50' })
    // 30 and an hour; the truck and 3 h besides, all at 32.50.
    expect(priceOf(1, table).lines.map(({ amount }) => amount)).toEqual(['75.00', '189.00'])
    expect(hours(10, table).least).toBeUndefined()
  })

  it('never make more work cost less', () => {
    const { extras } = table
    const dear = { ...table, extras: extras.map(extra => ({ ...extra, lower: '0', upper: '0' })) }
    const job = (asked: string[]) => jobOf([{ shape: 'area', sizes: { area: '100' } }], dear, asked)
    const [without, within] = [[], ['weeding']].map(asked => workOutPrice(job(asked), dear).total)
    expect(Number(within)).toBeGreaterThanOrEqual(Number(without))
  })
})

describe('the crew of one job', () => {
  const table = twoMen()
  const withCrew = (...crew: [string, string][]): Terms => ({
    ...plainTerms,
    crew: crew.map(([name, count]) => ({ name, count })),
  })

  it('is paid instead of the usual one, and drives', () => {
    // 10.5 h alone are two days, with half an hour’s drive each: 11.5 h of the foreman at 35.
    const alone = priceOf(10, table, withCrew(['Foreman', '1']))
    expect([alone.laborHoursTotal, alone.costs!.labor, alone.costs!.truck]).toEqual([
      '11.50',
      '402.50',
      '120.00',
    ])
    // Three of them: 12 h, 4 of the foreman at 35 and 8 of helpers at 22.
    const three = priceOf(10, table, withCrew(['Foreman', '1'], ['Helper', '2']))
    expect([three.laborHoursTotal, three.costs!.labor]).toEqual(['12.00', '316.00'])
  })

  it('is the usual one where nobody of it is known any more', () => {
    expect(priceOf(10, table, withCrew(['Somebody', '3']))).toEqual(priceOf(10, table))
  })

  it('is so many people where one wage stands for everybody', () => {
    const alike = twoMen({ people: [], costs: { wage: '28' }, labor: { crew: '2' } })
    expect(priceOf(10, alike).costs!.labor).toBe('402.50')
    expect(priceOf(10, alike, withCrew(['', '3'])).laborHoursTotal).toBe('12.00')
  })
})

it('in every scenario a price by cost is the one of what its bed then takes', () => {
  const plain = twoMen({ labor: { drive: '0', setUp: both('0') }, costs: { truckEach: '0' } })
  const table = twoMen({ labor: { least: '8' } })
  for (const area of ['432', '2160']) {
    const told = [{ shape: 'area', sizes: { area }, measuredBy: 'eye', depth: '3' }]
    const job = jobOf(told, table)
    const spread = (by: RateTable) => spreadsOf(job, jobQuantities(job, by), by, 1, methodOf(1))()
    const [alone, coming] = [spread(plain), spread(table)]
    for (const end of ['low', 'high'] as const) {
      // A yd³ is (30 + 32.50) × 1.2 = 75 there, so it takes so many; and there is no other chance than its volume.
      const volume = alone[end] / 100 / 75
      expect(coming[end] / 100).toBeCloseTo(Number(priceOf(Number(volume.toFixed(6)), table).total), 0)
    }
  }
})

it('a wage among the people is enough to price by cost, and no name may stand there twice', () => {
  const faults = (table: RateTable) =>
    rateTableSchema.safeParse(table).error?.issues.map(({ path }) => path.join('.')) ?? []
  const table = twoMen({ costs: { wage: null } })
  expect(faults(table)).toEqual([])
  expect(faults({ ...table, people: [...table.people, table.people[0]!] })).toEqual(['people.2.name'])
  expect(faults({ ...table, people: [] })).toContain('finishes.0.pricedBy')
})
