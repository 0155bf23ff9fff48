import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { shared, sharesByStop } from '../../src/estimate/price/by-stop.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { Decimal, sumOf } from '../../src/lib/decimal.ts'
import { jobOf, testTable } from './jobs.ts'

const amounts = fc
  .integer({ min: -9_999_999, max: 9_999_999 })
  .map(cents => new Decimal(cents).div(100).toFixed(2))
const weights = fc.array(fc.integer({ min: 0, max: 100_000 }), { minLength: 1, maxLength: 60 })
const decimals = (list: number[]) => list.map(one => new Decimal(one).div(7))

describe('an amount shared out by stop', () => {
  it('gives the cents that are left to the largest remainders, the first of equal ones', () => {
    expect(shared('100.00', decimals([1, 1, 1]))).toEqual(['33.34', '33.33', '33.33'])
    expect(shared('0.02', decimals([1, 1, 1]))).toEqual(['0.01', '0.01', '0.00'])
    // 10.00 ÷ 16: 6.25, 1.875, 1.875; one cent is left for two equal remainders.
    expect(shared('10.00', decimals([10, 3, 3]))).toEqual(['6.25', '1.88', '1.87'])
    expect(shared('-0.05', decimals([2, 1]))).toEqual(['-0.03', '-0.02'])
    expect(shared('5.00', decimals([0, 0]))).toBeNull()
  })

  it('adds up to the cent, each within a cent of its share, nothing where nothing weighs', () => {
    fc.assert(
      fc.property(amounts, weights, (amount, list) => {
        const whole = list.reduce((sum, one) => sum + one, 0)
        const parts = shared(amount, decimals(list))
        if (whole === 0) {
          expect(parts).toBeNull()
          return
        }
        expect(sumOf(parts!.map(part => new Decimal(part))).eq(amount)).toBe(true)
        for (const [at, part] of parts!.entries()) {
          const exact = new Decimal(amount).times(list[at]!).div(whole)
          expect(exact.minus(part).abs().lt('0.01')).toBe(true)
          if (list[at] === 0) expect(Number(part)).toBe(0)
        }
      }),
      { examples: [['0.00', [0]]] },
    )
  })
})

describe('a price by stop', () => {
  it('shares a material by its volume and an extra by what it is counted by; travel and one-off extras are whole', () => {
    // 27 × 12 ft and 9 × 12 ft, 3 in deep: 3 and 1 yd³; edges of 78 and 42 ft.
    const beds = [
      { sizes: { length: '27 ft', width: '12 ft' } },
      { sizes: { length: '9 ft', width: '12 ft' }, count: '2' },
      { sizes: { length: '9 ft', width: '12 ft' }, finish: 'compost' },
    ]
    const job = jobOf(beds, testTable(), ['edging'])
    const lines = [
      { kind: 'finish', slug: 'shredded-wood', amount: '500.00' },
      { kind: 'finish', slug: 'compost', amount: '80.00' },
      { kind: 'extra', slug: 'edging', amount: '204.00' },
      { kind: 'travel', slug: null, amount: '40.00' },
      { kind: 'tax', slug: null, amount: '9.99' },
      { kind: 'other', slug: null, amount: '-10.00' },
    ]
    expect(sharesByStop(job, [0, 1, 1], 2, lines, testTable())).toEqual([
      ['300.00', '200.00'],
      ['0.00', '80.00'],
      // 78 of 204 ft, and 3 × 42.
      ['78.00', '126.00'],
      null,
      null,
      null,
    ])
  })

  it('leaves every line of any job as it is: its shares add up to it', () => {
    const size = fc.integer({ min: 2, max: 60 })
    const bed = fc.record({ length: size, width: size, stop: fc.nat(4), stone: fc.boolean() })
    fc.assert(
      fc.property(fc.array(bed, { minLength: 1, maxLength: 8 }), told => {
        const beds = told.map(({ length, width, stone }) => ({
          sizes: { length: `${length} ft`, width: `${width} ft` },
          finish: stone ? 'stone' : 'shredded-wood',
        }))
        const job = jobOf(beds, testTable(), ['edging'])
        const { lines } = workOutPrice(job, testTable())
        const stops = told.map(({ stop }) => stop)
        for (const [at, shares] of sharesByStop(job, stops, 5, lines, testTable()).entries()) {
          if (shares) expect(sumOf(shares.map(share => new Decimal(share))).eq(lines[at]!.amount)).toBe(true)
          else expect(['finish', 'extra']).not.toContain(lines[at]!.kind)
        }
      }),
      { numRuns: 30 },
    )
  })
})
