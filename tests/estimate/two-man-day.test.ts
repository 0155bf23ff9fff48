import { describe, expect, it } from 'vitest'
import { plainTerms } from '../../src/estimate/job/terms.ts'
import { laborCosts } from '../../src/estimate/price/cost.ts'
import { costWith, workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { worksheetOf } from '../../src/estimate/worksheet/worksheet.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { jobOf } from './jobs.ts'
import { hours, priceOf, twoMen, yards } from './two-men.ts'

describe('a day of two', () => {
  const table = twoMen()

  it('is so many labor hours: the work, and the drive of both', () => {
    expect(hours(10, table)).toEqual({ spread: '10.00', 'set-up': '0.50', drive: '1.00' })
    expect(priceOf(10, table).laborHoursTotal).toBe('11.50')
  })

  it('costs what each of them, the truck and the overhead come to', () => {
    // 11.5 h are 5.75 h for each: 5.75 × 28 = 161 and a quarter on top; 5.75 × 20 = 115 and a tenth.
    const labor = laborCosts(new Decimal('11.5'), table).map(({ name, hours, wages, onTop }) =>
      [name, hours, wages, onTop].map(String),
    )
    expect(labor).toEqual([
      ['Foreman', '5.75', '161', '40.25'],
      ['Helper', '5.75', '115', '11.5'],
    ])
    expect(priceOf(10, table).costs).toEqual({
      material: '300.00',
      purchaseTax: '0.00',
      delivery: '0.00',
      labor: '327.75',
      truck: '60.00',
      dump: '0.00',
      overhead: '46.00',
      total: '733.75',
    })
  })

  it('is priced from that cost, and what the markup puts on it is left', () => {
    // An hour is (28 × 1.25 + 20 × 1.1) ÷ 2 + 4 = 32.50. (300 + 10 × 32.50) × 1.2; (60 + 1.5 × 32.50) × 1.2.
    const { lines, total, margin, payPerLaborHour } = priceOf(10, table)
    expect(lines.map(({ kind, amount }) => `${kind} ${amount}`)).toEqual(['finish 750.00', 'set-up 130.50'])
    // 880.50 − 733.75 = 146.75, a fifth of the cost; with the wages 474.50 over 11.5 h.
    expect([total, margin, payPerLaborHour]).toEqual(['880.50', '0.1667', '41.26'])
  })

  it('is told line by line on the worksheet', () => {
    const { labor, laborHour, price, cost } = worksheetOf(jobOf(yards(10), table), table)
    expect(labor).toContain('Driving: 1 day × 0.5 h there and back × 2 people = 1 h')
    expect(labor).toContain('On the clock: 11.5 h ÷ 2 people = 5.75 h, 1 day')
    expect(laborHour).toEqual([
      'A labor hour costs ($28.00 × 1.25 + $20.00 × 1.1) ÷ 2 + $4.00 of overhead = $32.50',
    ])
    expect(price).toEqual([
      'Shredded wood: ($300.00 to buy + 10 h × $32.50) × (1 + 0.2) = $750.00',
      'Setup and coming there, from their cost: ($0.00 + 1 day × $60.00 + 0.5 h × $32.50 + 1 h of driving × $32.50) × (1 + 0.2) = $130.50',
      'Total: $880.50',
    ])
    expect(cost).toEqual([
      'Material: $300.00',
      'Foreman: 5.75 h × $28.00 = $161.00',
      'Foreman, payroll taxes and insurance: 25% of that = $40.25',
      'Helper: 5.75 h × $20.00 = $115.00',
      'Helper, payroll taxes and insurance: 10% of that = $11.50',
      'Truck: 1 day × $60.00 = $60.00',
      'Overhead: 11.5 h × $4.00 = $46.00',
      'Cost: $733.75',
      'Margin: $880.50 − $733.75 = $146.75; ÷ $880.50 = 16.67%',
      'Pay: ($880.50 − $733.75 + $327.75 of wages) ÷ 11.5 h = $41.26 per labor hour',
    ])
  })

  it('becomes three where the work takes longer than they are there', () => {
    // 30.5 h of work in days of 2 × 7.5 h: three, with a drive each; 33.5 h in days of 2 × 8 h are three too.
    expect(hours(30, table).drive).toBe('3.00')
    expect(priceOf(30, table).costs!.truck).toBe('180.00')
    // 14.5 h and the half hour of setting up fill one day to the minute.
    expect(hours(14.5, table).drive).toBe('1.00')
    expect(hours(14.51, table).drive).toBe('2.00')
  })

  it('is what the contractor’s own hours make of it', () => {
    const job = jobOf(yards(10), table)
    const told = { job, price: workOutPrice(job, table), terms: plainTerms }
    // 20 h: 10 × 35 + 10 × 22 for them, two days of the truck, 20 × 4.
    expect(costWith(new Decimal(20), told, table)).toMatchObject({
      labor: '570.00',
      truck: '120.00',
      overhead: '80.00',
    })
  })
})

describe('the truck and the overhead', () => {
  it.each([
    // 5.75 h on the clock at 9; 20 miles at .70; two dollars more for each job.
    [{ truckBy: 'hour', truckEach: '9' }, '51.75', '46.00'],
    [{ truckBy: 'distance', truckEach: '0.70' }, '14.00', '46.00'],
    [{ truckBy: 'distance', truckEach: '0.70', truckPerJob: '2' }, '16.00', '46.00'],
    // A tenth of 300 + 327.75 + 60, by itself and on top of 4 an hour.
    [{ overheadPerLaborHour: '0', overheadShare: '0.10' }, '60.00', '68.78'],
    [{ overheadShare: '0.10' }, '60.00', '114.78'],
  ] as const)('with %j cost %s and %s', (costs, truck, overhead) => {
    expect(priceOf(10, twoMen({ costs })).costs).toMatchObject({ truck, overhead })
  })

  it.each([
    // What the price by cost has over the cost is a fifth of it, whichever way the truck and the overhead are reckoned.
    [{ truckBy: 'hour', truckEach: '9' }],
    [{ truckBy: 'distance', truckEach: '0.70', truckPerJob: '2' }],
    [{ overheadPerLaborHour: '0', overheadShare: '0.10' }],
  ] as const)('with %j are in the price as they are in the cost', costs => {
    const { total, cost } = priceOf(10, twoMen({ costs }))
    expect(Number(total)).toBeCloseTo(Number(cost) * 1.2, 1)
  })
})
