import { describe, expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import { plainTerms, type Terms } from '../../src/estimate/job/terms.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { Tax } from '../../src/estimate/table/tax.ts'
import { taxOn } from '../../src/estimate/tax/tax-on.ts'
import { jobOf, testTable } from './jobs.ts'
import { taxedOnly, taxOf } from './taxes.ts'

const line = (kind: string, amount: string) => ({ kind, amount })
const due = (lines: { kind: string; amount: string }[], tax: Partial<Tax>, terms: Partial<Terms> = {}) =>
  taxOn(lines, '', { ...plainTerms, ...terms }, testTable({ tax: taxOf(tax) }))!

// All rates here are invented.
describe('the base of a tax', () => {
  const lines = [line('finish', '200.00'), line('extra', '40.00'), line('travel', '15.00')]

  it('is what is flagged, by kind of line, and the rest is untaxed', () => {
    const taxed = { upkeep: taxedOnly('finish', 'extra'), new: taxedOnly('extra') }
    // 8 % of 240, and of 40.
    expect(due(lines, { taxed })).toEqual({
      rate: '0.08',
      included: false,
      taxed: '240.00',
      untaxed: '15.00',
      amount: '19.20',
      off: '0.00',
    })
    expect(due(lines, { taxed }, { work: 'new' })).toMatchObject({ taxed: '40.00', amount: '3.20' })
  })

  it('takes a discount, a size of job and a minimum in the share of the plain lines that is taxed', () => {
    const taxed = { upkeep: taxedOnly('finish'), new: taxedOnly() }
    const half = [line('finish', '100.00'), line('extra', '100.00')]
    // Half of −20 and of −10 and of +30: 100 − 10 − 5 + 15.
    const more = [line('size', '-20.00'), line('adjustment', '-10.00'), line('minimum', '30.00')]
    expect(due([...half, ...more], { taxed })).toMatchObject({ taxed: '100.00', amount: '8.00' })
    expect(due([...half, line('adjustment', '-20.00')], { taxed })).toMatchObject({
      taxed: '90.00',
      untaxed: '90.00',
      amount: '7.20',
    })
  })

  it('never takes more of a minimum than there is, whatever the contractor took off on a line of his own', () => {
    const taxed = { upkeep: taxedOnly('finish'), new: taxedOnly() }
    const lines = [line('finish', '100.00'), line('minimum', '50.00'), line('other', '-90.00')]
    // All plain lines that bring in anything are taxed, so the minimum is: 150, and not ten times 50 more.
    expect(due(lines, { taxed })).toMatchObject({ taxed: '150.00', untaxed: '-90.00', amount: '12.00' })
  })

  it('is nothing for who has a certificate', () => {
    expect(due(lines, {}, { exempt: 'EX-1' })).toMatchObject({
      taxed: '0.00',
      untaxed: '255.00',
      amount: '0.00',
    })
  })

  it('counts setting up as laying', () => {
    const taxed = { upkeep: taxedOnly('laying'), new: taxedOnly() }
    expect(due([line('finish', '50.00'), line('set-up', '25.00')], { taxed })).toMatchObject({
      taxed: '25.00',
    })
  })
})

describe('rounding, to the cent from the third decimal, up when it is over four (Streamlined Agreement, section 324)', () => {
  it.each([
    // 8.25 % of 10 is .825: up; of 10.96 it is .9042: down.
    ['10.00', '0.83'],
    ['10.96', '0.90'],
    ['10.90', '0.90'],
    ['10.97', '0.91'],
  ])('0.0825 of %s is %s', (amount, tax) => {
    expect(due([line('finish', amount)], { rate: '0.0825' }).amount).toBe(tax)
  })

  it('per line or per bill, as the seller chooses', () => {
    // 8.25 % of 10 is .825 thrice: 3 × .83, or 2.475 as 2.48.
    const lines = [line('finish', '10.00'), line('extra', '10.00'), line('travel', '10.00')]
    expect(due(lines, { rate: '0.0825', rounded: 'line' }).amount).toBe('2.49')
    expect(due(lines, { rate: '0.0825', rounded: 'bill' }).amount).toBe('2.48')
  })
})

describe('prices with the tax in them', () => {
  const lines = [line('finish', '119.00'), line('travel', '59.50')]

  it('have it as rate ÷ (1 + rate) of the total', () => {
    // At 19 %: 178.50 is 150 and 28.50.
    expect(due(lines, { rate: '0.19', prices: 'with' })).toMatchObject({
      included: true,
      taxed: '178.50',
      amount: '28.50',
    })
  })

  it('leave the total as it is, and the margin to what is left without it', () => {
    const table = testTable({ tax: taxOf({ rate: '0.20', prices: 'with' }) })
    const costs = { ...table.costs, wage: '0' }
    const finishes = table.finishes.map(finish => ({ ...finish, materialCost: '0' }))
    const known = { ...table, costs, finishes }
    // 1 yd³ at 90, of which a sixth is tax.
    const price = workOutPrice(jobOf([{ shape: 'volume', sizes: { volume: '1 yd' } }], known), known)
    expect(price).toMatchObject({ total: '90.00', net: '75.00', margin: '1.0000' })
    expect(price.tax).toMatchObject({ amount: '15.00', included: true })
  })

  it('are lowered by it for whoever is exempt', () => {
    const table = testTable({ tax: taxOf({ rate: '0.20', prices: 'with' }) })
    const job = jobOf([{ shape: 'volume', sizes: { volume: '1 yd' } }], table)
    const exempt = workOutPrice(job, table, { ...plainTerms, exempt: 'C-14' })
    expect(exempt).toMatchObject({ total: '75.00', net: '75.00' })
    expect(exempt.tax).toMatchObject({ amount: '0.00', taxed: '0.00', untaxed: '90.00', off: '15.00' })
  })
})

describe('the rate', () => {
  const areas = [
    { postcodes: ['55401'], rate: '0.09', second: null },
    { postcodes: ['55*'], rate: '0.0685', second: null },
  ]
  const table = testTable({ tax: taxOf({ areas }) })
  it.each([
    ['55401', '0.09'],
    ['55401-2345', '0.09'],
    ['55999', '0.0685'],
    ['60601', '0.08'],
    ['', '0.08'],
  ])('at %s is %s: where the work is done, else the usual one', (postcode, rate) => {
    expect(taxOn([line('finish', '1.00')], postcode, plainTerms, table)!.rate).toBe(rate)
  })

  it('is none, and nothing is said of one, where the business charges no tax', () => {
    expect(taxOn([line('finish', '1.00')], '', plainTerms, testTable())).toBeNull()
    expect(workOutBallpark(jobOf([{}]), testTable()).tax).toBeNull()
  })
})

describe('ranges', () => {
  // One yard at exactly 90, and 8 %.
  const exact = (tax: Partial<Tax>, changes = {}) => {
    const table = testTable({ tax: taxOf(tax), step: '0.01', ...changes })
    const finishes = table.finishes.map(finish => ({ ...finish, rates: [{ lower: '90', upper: '90' }] }))
    return { ...table, finishes }
  }
  const bed = { shape: 'area', sizes: { area: '108' }, depth: '3' }

  it('have the tax in them where the owner says so, and else its rate beside them', () => {
    const [without, within] = [false, true].map(inRanges => {
      const table = exact({ inRanges })
      return workOutBallpark(jobOf([bed], table), table)
    })
    expect(without!.tax).toEqual({ rate: '0.08', inRange: false })
    expect(without!.range.likely).toBe('90.00')
    expect(within!.tax).toEqual({ rate: '0.08', inRange: true })
    expect(within!.range.likely).toBe('97.20')
    expect(Number(within!.range.low)).toBeCloseTo(Number(without!.range.low) * 1.08, 1)
    expect(Number(within!.range.high)).toBeCloseTo(Number(without!.range.high) * 1.08, 1)
  })

  it('have likely in them also where the minimum is taxed line by line', () => {
    // 8 % of each line: a cent and a half less together than 8 % of the minimum.
    const table = exact({ inRanges: true, rounded: 'line', rate: '0.0806' }, { minimumCharge: '300' })
    for (let area = 1; area <= 200; area++) {
      const sizes = { area: String(area) }
      const job = jobOf(
        [
          { ...bed, sizes },
          { ...bed, sizes, finish: 'stone' },
        ],
        table,
        ['weeding'],
      )
      const { low, likely, high } = workOutBallpark(job, table).range
      expect(Number(low)).toBeLessThanOrEqual(Number(likely))
      expect(Number(likely)).toBeLessThanOrEqual(Number(high))
    }
  })
})
