import { describe, expect, it } from 'vitest'
import { plainTerms, type Terms } from '../../src/estimate/job/terms.ts'
import { earningsOf, floorsMissed } from '../../src/estimate/price/cost.ts'
import { costWith, workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { jobOf, testTable } from './jobs.ts'
import { bulk, extraOf, flat, piece } from './packs/made.ts'
import { taxOf } from './taxes.ts'

const asUsual = { drive: null, driven: null }
const both = (figure: string) => ({ lower: figure, upper: figure })

/** Every piece of cost has an invented figure of its own. */
function knownTable(changes: Partial<RateTable> = {}): RateTable {
  const table = testTable({ allowance: '0.1' })
  return {
    ...table,
    finishes: table.finishes.map(finish =>
      finish.slug === 'stone'
        ? { ...finish, materialCost: '50' }
        : { ...finish, packs: [bulk({ step: '1' })] },
    ),
    extras: [
      extraOf({
        slug: 'edging',
        per: 'edge',
        packs: [piece()],
        laborHours: both('0.01'),
        lower: '3',
        upper: '3',
      }),
      extraOf({ slug: 'old-mulch', per: 'lying', dumpFee: '10', lower: '30', upper: '30' }),
    ],
    carriers: [{ name: { en: 'truck', es: 'camión' }, volume: '2', payload: null }],
    labor: { ...table.labor, spread: both('1'), trip: both('0.5'), setUp: both('0.25') },
    costs: {
      ...table.costs,
      wage: '20',
      burden: '0.25',
      overheadPerLaborHour: '4',
      truckPerJob: '15',
      truckPerTrip: '7',
    },
    tax: taxOf({ rate: '0', onPurchases: '0.05' }),
    ...changes,
  }
}

// 216 ft² at 3 in on 1 in: 2 in are 36 ft³, 1.3333 yd³; 1.4667 to order. With the old out first the whole 3 in are laid: 54
// ft³, 2 yd³, 2.2 to order. As much edge as a 24 × 9 ft bed has: 66 ft.
const bed = { sizes: { length: '24', width: '9' }, depth: '3', lying: 'fair' }

describe('what a job costs', () => {
  it('piece by piece', () => {
    const table = knownTable()
    const price = workOutPrice(jobOf([bed], table, ['edging', 'old-mulch']), table)
    // Hours: 2 laying, .66 edging, .5 for each of two trips, .25 setting up: 3.91.
    expect(price.laborHoursTotal).toBe('3.91')
    expect(price.costs).toEqual({
      // 3 yd³ at 32, and four lengths at 18 and five stakes at .80: 96 + 88; 5 % of each.
      material: '184.00',
      purchaseTax: '9.20',
      delivery: '0.00',
      // 3.91 × 25, 15 and two trips at 7, 18 ft³ of old mulch at 10 a yd³, 3.91 × 4.
      labor: '97.75',
      truck: '29.00',
      dump: '6.67',
      overhead: '15.64',
      total: '342.26',
    })
  })

  it('has the delivery in it, and no trips, where that is how it comes', () => {
    const table = knownTable()
    const packs = [bulk({ step: '1', collected: false, delivered: { fee: '45', freeFrom: null } })]
    const brought = { ...table, finishes: table.finishes.map(finish => ({ ...finish, packs })) }
    const { costs, laborHours } = workOutPrice(jobOf([bed], brought), brought)
    // 5 % of 64 and 45.
    expect(costs).toMatchObject({ material: '64.00', delivery: '45.00', purchaseTax: '5.45', truck: '15.00' })
    expect(laborHours.map(({ task }) => task)).toEqual(['spread', 'set-up'])
  })

  it('isn’t known while one finish’s material or the wage isn’t', () => {
    const table = knownTable()
    const job = (of: RateTable) => jobOf([bed, { ...bed, finish: 'stone' }], of)
    expect(workOutPrice(job(table), table).cost).not.toBeNull()
    const unknown = {
      ...table,
      finishes: table.finishes.map(finish => ({ ...finish, materialCost: null })),
    }
    expect(workOutPrice(job(unknown), unknown)).toMatchObject({ costs: null, cost: null, margin: null })
    const idle = { ...table, costs: { ...table.costs, wage: null } }
    expect(workOutPrice(job(idle), idle)).toMatchObject({ costs: null, payPerLaborHour: null })
  })

  it('follows the contractor’s own labor hours in labor and overhead alone', () => {
    const table = knownTable()
    const job = jobOf([bed], table)
    const price = workOutPrice(job, table)
    const { costs } = price
    const more = costWith(new Decimal(10), { job, price, terms: plainTerms }, table)
    expect(more).toEqual({
      ...costs,
      labor: '250.00',
      overhead: '40.00',
      total: (Number(costs!.total) - Number(costs!.labor) - Number(costs!.overhead) + 290).toFixed(2),
    })
  })
})

describe('what a price earns', () => {
  const cost = {
    material: '60.00',
    purchaseTax: '0.00',
    delivery: '0.00',
    labor: '40.00',
    truck: '0.00',
    dump: '0.00',
    overhead: '20.00',
    total: '120.00',
  }

  it('is a margin as a share of the price, and what is left per labor hour when all but the wages is paid', () => {
    const { margin, payPerLaborHour } = earningsOf(new Decimal(200), cost, new Decimal(4))
    // 80 of 200 left; with the wages 120, over 4 hours.
    expect([margin!.toNumber(), payPerLaborHour!.toNumber()]).toEqual([0.4, 30])
  })

  it('may be less than nothing, and nothing can be said of a price of none or a job of no hours', () => {
    const { margin, payPerLaborHour } = earningsOf(new Decimal(60), cost, new Decimal(4))
    expect([margin!.toNumber(), payPerLaborHour!.toNumber()]).toEqual([-1, -5])
    expect(earningsOf(new Decimal(0), cost, new Decimal(0))).toEqual({ margin: null, payPerLaborHour: null })
  })

  it.each([
    ['0.40', '30', []],
    ['0.41', null, ['margin']],
    [null, '30.01', ['payPerLaborHour']],
    ['0.5', '50', ['margin', 'payPerLaborHour']],
    [null, null, []],
  ])('misses floors of %s and %s: %j', (margin, payPerLaborHour, missed) => {
    const table = testTable({ floors: { margin, payPerLaborHour } })
    expect(floorsMissed(earningsOf(new Decimal(200), cost, new Decimal(4)), table)).toEqual(missed)
  })

  it('is of the price without the tax that comes on top', () => {
    const [without, within] = ['0', '0.10'].map(rate => {
      const table = knownTable({ tax: taxOf({ rate }) })
      return workOutPrice(jobOf([bed], table), table)
    })
    expect(within!.net).toBe(without!.net)
    expect(within!.margin).toBe(without!.margin)
    // 1.3333 yd³ at 90 is 120; a tenth on it.
    expect([without!.total, within!.total]).toEqual(['120.00', '132.00'])
  })
})

describe('a discount or a surcharge', () => {
  const table = testTable({
    minimumCharge: '100',
    travel: [{ postcodes: ['43*'], charge: '20', ...asUsual }],
    extras: [extraOf({ slug: 'edging', per: 'job', lower: '40', upper: '40' })],
    tax: taxOf({ rate: '0.10' }),
  })
  const linesOn = (value: string, by: 'share' | 'money' = 'share', beds = 1) => {
    const terms: Terms = { ...plainTerms, adjustment: { by, value, reason: 'a neighbour' } }
    const told = [{ shape: 'volume', sizes: { volume: `${beds} yd` } }]
    const price = workOutPrice(jobOf(told, table, ['edging'], '43001'), table, terms)
    return [...price.lines.map(({ kind, amount }) => `${kind} ${amount}`), price.total]
  }

  it('comes after extras and travel, before the minimum and the tax', () => {
    // 90 + 40 + 20 = 150; a tenth off is 135 and the tax 13.50.
    expect(linesOn('-0.1')).toEqual([
      'finish 90.00',
      'extra 40.00',
      'travel 20.00',
      'adjustment -15.00',
      '148.50',
    ])
    // Half off is 75, under the minimum of 100.
    expect(linesOn('-0.5')).toEqual([
      'finish 90.00',
      'extra 40.00',
      'travel 20.00',
      'adjustment -75.00',
      'minimum 25.00',
      '110.00',
    ])
    expect(linesOn('30', 'money')).toContain('adjustment 30.00')
  })

  it('never takes off more than there is', () => {
    expect(linesOn('-500', 'money')).toContain('adjustment -150.00')
    expect(linesOn('-500', 'money')).toContain('minimum 100.00')
  })

  it('of nothing has no line', () => {
    expect(linesOn('0').some(line => line.startsWith('adjustment'))).toBe(false)
  })
})

it('prices of packs are whole in a price’s material, each finish over all its beds', () => {
  const table = knownTable({ tax: null })
  const finishes = table.finishes.map(finish => ({
    ...finish,
    allowance: '0',
    packs: [bulk({ step: '1', prices: flat('10') })],
  }))
  const exact = { ...table, finishes }
  // Three beds of .5 yd³ are 1.5 together: 2 yd³ of it, not 3.
  const half = { shape: 'volume', sizes: { volume: '0.5 yd' } }
  expect(workOutPrice(jobOf([half, half, half], exact), exact).costs!.material).toBe('20.00')
})
