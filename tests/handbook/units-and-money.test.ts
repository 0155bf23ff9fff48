import { describe, expect, it } from 'vitest'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { jobOf, testTable } from '../estimate/jobs.ts'
import { worked } from './worked.ts'

// NIST SP 811, appendix B: 1 ft = 0.3048 m, 1 ft² = 0.092 903 04 m², 1 ft³ = 28.316 846 592 L, 1 yd³ = 0.764 554 857 984 m³.
describe('units, exactly', () => {
  it.each([
    ['area', { area: '100,000 ft2' }, '9290.3040'],
    ['rectangle', { length: '100 ft', width: '1 m' }, '30.4800'],
  ])('%s of %j in square metres', (shape, sizes, area) => {
    expect(worked({ shape, sizes, depth: '7.5' }, 'metric').area).toBe(area)
  })

  it.each([
    ['1000 yd3', '764.5549'],
    ['100,000 cu ft', '2831.6847'],
    ['800 l', '0.8000'],
  ])('%s in cubic metres', (volume, inPlace) => {
    expect(worked({ shape: 'volume', sizes: { volume } }, 'metric').inPlace).toBe(inPlace)
  })

  // US Army STP 21-1: a pace is 30 in.
  it('forty paces are a hundred feet', () => {
    expect(worked({ sizes: { length: '40 paces', width: '1' } }).area).toBe('100.0000')
  })
})

describe('labor and money', () => {
  // F. W. Taylor, Shop Management, 1911: barrows of 2.32 ft³, 43 loads in 122 min, so 33.0 min a cubic yard.
  it('Taylor’s barrows take 33 minutes a cubic yard', () => {
    const hours = 122 / 43 / 60 / (2.32 / 27)
    const spread = { lower: hours.toFixed(6), upper: hours.toFixed(6) }
    const table = testTable({ labor: { ...testTable().labor, spread } })
    const price = workOutPrice(jobOf([{ shape: 'volume', sizes: { volume: '10 yd' } }], table), table)
    expect(Number(price.laborHoursTotal) * 6).toBeCloseTo(33.0, 1)
  })

  // Penn State Extension, 2024: a cost of $5 and 30 % markup is a price of $6.50, a margin of 23 %.
  it('a markup of 30 % is a margin of 23 %', () => {
    const rates = [{ lower: '6.50', upper: '6.50' }]
    const { labor, costs } = testTable()
    const idle = { ...labor, spread: { lower: '0', upper: '0' } }
    const table = testTable({ allowance: '0', labor: idle, costs: { ...costs, wage: '0' } })
    const priced = { ...table, finishes: table.finishes.map(f => ({ ...f, rates, materialCost: '5' })) }
    const price = workOutPrice(jobOf([{ shape: 'volume', sizes: { volume: '1 yd' } }], priced), priced)
    expect([price.cost, price.total]).toEqual(['5.00', '6.50'])
    expect(Number(price.margin)).toBeCloseTo(0.23, 2)
  })

  // CalRecycle: loose gravel 2,600 lb a cubic yard, a fifth more when wet.
  it('a cubic yard of wet stone weighs 3,120 lb', () => {
    const stone = testTable().finishes.find(finish => finish.slug === 'stone')!
    expect(Number(stone.densityWet)).toBe(2600 * 1.2)
  })
})
