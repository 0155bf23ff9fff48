import { describe, expect, it } from 'vitest'
import type { Job } from '../../src/estimate/job/bed.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { Extra, RateTable } from '../../src/estimate/table/rate-table.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { jobOf, testTable } from './jobs.ts'
import { bag, bulk, extraOf } from './packs/made.ts'

const both = (figure: string) => ({ lower: figure, upper: figure })

/** One labor hour a yd³, no other hours: every figure here is invented. */
function laboring(changes: Partial<RateTable['labor']> = {}, rest: Partial<RateTable> = {}): RateTable {
  const table = testTable({ allowance: '0', ...rest })
  return { ...table, labor: { ...table.labor, spread: both('1'), ...changes } }
}

// 108 ft² at 3 in are 1 yd³, less what is planted.
const yard = (more = {}) => ({ shape: 'area', sizes: { area: '108' }, depth: '3', ...more })

function hoursOf(job: Job, table: RateTable): Record<string, string> {
  const { laborHours, laborHoursTotal } = workOutPrice(job, table)
  return { ...Object.fromEntries(laborHours.map(({ task, hours }) => [task, hours])), total: laborHoursTotal }
}

function away(job: Job, changes: { carry?: number; stairs?: number }): Job {
  const { carry = 0, stairs = 0 } = changes
  return { ...job, beds: job.beds.map(bed => ({ ...bed, carry: new Decimal(carry), stairs })) }
}

describe('laying', () => {
  it('takes the middle of its hours a yd³ in place, without the allowance', () => {
    const table = laboring({ spread: { lower: '0.5', upper: '0.8' } }, { allowance: '0.2' })
    expect(hoursOf(jobOf([yard({ count: 4 })], table), table)).toEqual({ spread: '2.60', total: '2.60' })
  })

  it.each([
    // Nothing for the first 50 ft; then a tenth for every 25 ft, also for a part of them.
    [{ carry: 50 }, '10.00'],
    [{ carry: 75 }, '11.00'],
    [{ carry: 80 }, '11.20'],
    [{ carry: 300 }, '20.00'],
    // A twentieth for each stair, on top of the way.
    [{ stairs: 4 }, '12.00'],
    [{ carry: 75, stairs: 4 }, '13.20'],
  ])('10 yd³ with %j take %s hours', (way, hours) => {
    const table = laboring({ carry: { free: '50', each: '25', adds: '0.1' }, stair: '0.05' })
    expect(hoursOf(away(jobOf([yard({ count: 10 })], table), way), table).spread).toBe(hours)
  })

  it.each([
    [{}, '10.00'],
    [{ slope: 'slope' }, '12.00'],
    [{ slope: 'steep' }, '15.00'],
    [{ gate: 'narrow' }, '13.00'],
    [{ slope: 'slope', gate: 'narrow' }, '15.60'],
    [{ slope: 'level', gate: 'wide' }, '10.00'],
  ])('10 yd³ where the bed has %j take %s hours', (told, hours) => {
    const table = laboring({ slope: '1.2', steep: '1.5', gate: '1.3' })
    expect(hoursOf(jobOf([yard({ count: 10, ...told })], table), table).spread).toBe(hours)
  })

  it('is slowed by planting, bed by bed, and takes less where plants stand', () => {
    const table = laboring({ planted: { open: '1', half: '1.2', full: '2' } })
    // 1 yd³ open, .85 at 1.2, .7 at 2: 1 + 1.02 + 1.4.
    const beds = ['open', 'half', 'full'].map(planted => yard({ planted }))
    expect(hoursOf(jobOf(beds, table), table).spread).toBe('3.42')
  })

  it('adds up over finishes', () => {
    const table = laboring()
    expect(hoursOf(jobOf([yard(), yard({ finish: 'stone' })], table), table)).toEqual({
      spread: '2.00',
      total: '2.00',
    })
  })
})

describe('extras', () => {
  const withExtras = (...extras: Partial<Extra>[]) =>
    laboring({ spread: both('0') }, { extras: extras.map(extraOf) })

  it('take hours by the foot of edge, by the area, by the job and by the bed', () => {
    const table = withExtras(
      { slug: 'edging', per: 'edge', laborHours: { lower: '0.01', upper: '0.03' } },
      { slug: 'fabric-out', per: 'area', laborHours: both('0.004') },
      { slug: 'protect', per: 'job', laborHours: both('0.5') },
      { slug: 'stake', per: 'bed', laborHours: both('0.25') },
    )
    // 20 × 5 ft twice: 100 ft of edge, 200 ft².
    const job = jobOf([{ count: 2 }], table, ['edging', 'fabric-out', 'protect', 'stake'])
    expect(hoursOf(job, table)).toEqual({
      spread: '0.00',
      edging: '2.00',
      'fabric-out': '0.80',
      protect: '0.50',
      stake: '0.50',
      total: '3.80',
    })
  })

  it('weeds cost by how bad they are, bed by bed', () => {
    const table = withExtras(
      { slug: 'light', group: 'weeds', laborHours: both('0.002'), lower: '0.10', upper: '0.10' },
      { slug: 'heavy', group: 'weeds', laborHours: both('0.006'), lower: '0.30', upper: '0.30' },
      { slug: 'jungle', group: 'weeds', laborHours: both('0.02'), lower: '0.90', upper: '0.90' },
    )
    const job = jobOf([{}, { sizes: { length: '10', width: '5' } }, {}], table)
    const [light, heavy, jungle] = table.extras as [Extra, Extra, Extra]
    const beds = job.beds.map((bed, index) => ({ ...bed, extras: [[light], [jungle], [heavy]][index]! }))
    // 100 ft² light, 100 heavy, 50 of jungle.
    expect(hoursOf({ ...job, beds }, table)).toMatchObject({ light: '0.20', heavy: '0.60', jungle: '1.00' })
    const lines = workOutPrice({ ...job, beds }, table).lines.filter(line => line.kind === 'extra')
    expect(lines.map(({ slug, amount }) => [slug, amount])).toEqual([
      ['light', '10.00'],
      ['heavy', '30.00'],
      ['jungle', '45.00'],
    ])
  })

  it('old mulch comes out by area × depth × how much looser it lies on the truck', () => {
    const table = withExtras({
      slug: 'old-mulch',
      per: 'lying',
      laborHours: both('1.5'),
      fluffing: '1.3',
      dumpFee: '8',
      lower: '40',
      upper: '40',
    })
    const known = {
      ...table,
      costs: { ...table.costs, wage: '0' },
      finishes: table.finishes.map(finish => ({ ...finish, materialCost: '0' })),
    }
    // 216 ft² with 2 in on them are 36 ft³, 46.8 ft³ loose: 1.7333 yd³.
    const job = jobOf([{ shape: 'area', sizes: { area: '216' }, depth: '3', lying: 'thick' }], known, [
      'old-mulch',
    ])
    const price = workOutPrice(job, known)
    const line = price.lines.find(({ slug }) => slug === 'old-mulch')
    expect(line).toMatchObject({ quantity: { value: '1.7333', unit: 'yd3' }, amount: '69.33' })
    expect(hoursOf(job, known)['old-mulch']).toBe('2.60')
    // 1.7333 at 8.
    expect(price.costs!.dump).toBe('13.87')
  })
})

describe('trips and setting up', () => {
  const truck = { name: { en: 'truck', es: 'camión' }, volume: '2', payload: null }
  const bought = (table: RateTable, packs: RateTable['finishes'][number]['packs']): RateTable => ({
    ...table,
    finishes: table.finishes.map(finish => ({ ...finish, packs })),
  })

  it('take the middle of their hours, per trip of each finish and once a job', () => {
    const table = laboring(
      { trip: { lower: '0.5', upper: '1' }, setUp: { lower: '0.25', upper: '0.75' } },
      { carriers: [truck] },
    )
    const collected = bought(table, [bulk()])
    // 5 yd³ in three trips of two, 1 yd³ of stone in a fourth.
    const job = jobOf([yard({ count: 5 }), yard({ finish: 'stone' })], collected)
    expect(hoursOf(job, collected)).toEqual({
      spread: '6.00',
      trip: '3.00',
      'set-up': '0.50',
      total: '9.50',
    })
  })

  it('take none where all is delivered', () => {
    const table = laboring({ trip: both('1') }, { carriers: [truck] })
    const delivered = bought(table, [bag({ collected: false, delivered: { fee: '40', freeFrom: null } })])
    expect(hoursOf(jobOf([yard()], delivered), delivered)).toEqual({ spread: '1.00', total: '1.00' })
  })
})
