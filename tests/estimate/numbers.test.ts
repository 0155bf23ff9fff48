import jstat from 'jstat'
import { describe, expect, it } from 'vitest'
import { inverseNormal } from '../../src/estimate/scenarios/normal.ts'
import { points } from '../../src/estimate/scenarios/points.ts'
import { outside } from '../../src/estimate/scenarios/range.ts'
import { sobolPoints } from '../../src/estimate/scenarios/sobol.ts'
import { cents, Decimal } from '../../src/lib/decimal.ts'

describe('Sobol points', () => {
  const points = sobolPoints(10)
  const nine = (index: number) => points.slice(0, 9).map(dimension => dimension[index]!)

  // S. Joe and F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008), file new-joe-kuo-6.21201, in Gray-code order.
  it('are those of Joe and Kuo', () => {
    expect(nine(0)).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 0])
    expect(nine(5)).toEqual([0.875, 0.875, 0.125, 0.375, 0.875, 0.625, 0.875, 0.375, 0.375])
    const last = [0.000977, 0.75293, 0.612305, 0.145508, 0.186523, 0.438477, 0.139648, 0.618164, 0.344727]
    expect(nine(1023).map(value => Number(value.toFixed(6)))).toEqual(last)
  })

  it('take each of 1,024 values once in every one of 16 dimensions', () => {
    expect(points).toHaveLength(16)
    for (const dimension of points) {
      expect([...dimension].sort((a, b) => a - b)).toEqual(Array.from({ length: 1024 }, (_, k) => k / 1024))
    }
  })
})

describe('the inverse normal', () => {
  it('agrees with jStat', () => {
    for (let k = 0; k < 1024; k++) {
      const p = (2 * k + 1) / 2048
      expect(inverseNormal(p)).toBeCloseTo(jstat.normal.inv(p, 0, 1), 8)
      expect(jstat.normal.cdf(inverseNormal(p), 0, 1)).toBeCloseTo(p, 9)
    }
  })

  it('gives draws with the mean 0 and nearly the variance 1', () => {
    for (const deviates of [points().bias, points().depthBias, ...points().own]) {
      expect(jstat.mean([...deviates])).toBeCloseTo(0, 10)
      expect(jstat.variance([...deviates])).toBeCloseTo(1, 2)
    }
  })
})

describe('the positions of low and high', () => {
  it('are numbers 102 and 921 of 1,024 for a promise of 80 %', () => {
    expect([outside('0.80'), 1023 - outside('0.8')]).toEqual([102, 921])
    expect(['0.5', '0.9', '0.99'].map(outside)).toEqual([256, 51, 5])
  })

  it('hold the quantiles jStat finds', () => {
    const sorted = [...points().bias].sort((a, b) => a - b)
    const [low, high] = jstat.quantiles(sorted, [0.1, 0.9])
    expect(sorted[102]!).toBeCloseTo(low!, 2)
    expect(sorted[921]!).toBeCloseTo(high!, 2)
  })
})

describe('money', () => {
  it('is rounded to the cent, half up', () => {
    expect(['1.005', '2.675', '0.125', '10', '1.004999'].map(cents)).toEqual([
      '1.01',
      '2.68',
      '0.13',
      '10.00',
      '1.00',
    ])
    expect(cents(new Decimal('-1.005'))).toBe('-1.01')
  })

  it('keeps its own settings of decimal.js', async () => {
    const { Decimal: shared } = await import('decimal.js')
    expect(Decimal).not.toBe(shared)
    expect(new Decimal(1).div(3).toFixed()).toBe(`0.${'3'.repeat(40)}`)
  })
})
