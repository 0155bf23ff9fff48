import { describe, expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import { ballparkAnswer } from '../../src/estimate/ballpark/present.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { jobOf, testTable, withTiers } from './jobs.ts'
import { taxOf } from './taxes.ts'

const table = testTable()

/** Every rate the same at both ends, so that only the beds are uncertain. */
function fixed(rate: string, changes: Partial<RateTable> = {}): RateTable {
  return {
    ...table,
    finishes: table.finishes.map(f => ({ ...f, rates: [{ lower: rate, upper: rate }] })),
    ...changes,
  }
}

describe('the range', () => {
  it('of one bed by eye at one rate is its shared and own error together', () => {
    // σ = 0.14 and Σe = 2: shared 2 × 0.14 × √½, own √(0.14² + 0.04² + 0.02²), of its form and of what is planted too;
    // together 0.2466. The 10 % point is 1.2816.
    const one = fixed('5400', { step: '0.01' })
    const { low, likely, high } = workOutBallpark(jobOf([{ measuredBy: 'eye' }], one), one).range
    expect(likely).toBe('5000.00')
    expect(Number(low) / 5000).toBeCloseTo(1 - 1.2816 * 0.2466, 2)
    expect(Number(high) / 5000).toBeCloseTo(1 + 1.2816 * 0.2466, 2)
  })

  it('of a told volume at a sure size is where the rates stand', () => {
    const wide = fixed('0', {
      step: '0.01',
      finishes: table.finishes.map(f => ({ ...f, rates: [{ lower: '0', upper: '1000' }] })),
    })
    const { low, high } = workOutBallpark(
      jobOf([{ shape: 'volume', sizes: { volume: '1 yd' } }], wide),
      wide,
    ).range
    expect(Number(low)).toBeGreaterThan(85)
    expect(Number(low)).toBeLessThan(115)
    expect(Number(high)).toBeGreaterThan(885)
    expect(Number(high)).toBeLessThan(915)
  })

  it('counts three alike as three beds, whose own errors partly cancel', () => {
    const one = fixed('5400', {
      step: '0.01',
      measuring: { ...table.measuring, eye: { sigma: '0.14', rho: '0' } },
    })
    const width = (count: number) => {
      const { low, high } = workOutBallpark(jobOf([{ measuredBy: 'eye', count }], one), one).range
      return (Number(high) - Number(low)) / count
    }
    expect(width(4) / width(1)).toBeCloseTo(1 / 2, 1)
  })

  it('takes "about" as by eye, and "15-25" as uncertain as it says', () => {
    const width = (sizes: Record<string, string>, measuredBy = 'tape') => {
      const { low, high } = workOutBallpark(
        jobOf([{ sizes, measuredBy }], fixed('5400', { step: '0.01' })),
        fixed('5400', { step: '0.01' }),
      ).range
      return Number(high) - Number(low)
    }
    const told = width({ length: '20', width: '5' })
    expect(width({ length: 'about 20', width: 'about 5' })).toBe(width({ length: '20', width: '5' }, 'eye'))
    expect(width({ length: '20 ft', width: '2 paces' })).toBeGreaterThan(told)
    // The standard error of 15-25 is an eighth of its middle: as wide as a length by an eye of σ 0.125.
    const eighth = {
      ...fixed('5400', { step: '0.01' }),
      measuring: { ...table.measuring, eye: { sigma: '0.125', rho: '0.5' } },
    }
    const { low, high } = workOutBallpark(
      jobOf([{ sizes: { length: 'about 20', width: '5' } }], eighth),
      eighth,
    ).range
    expect(width({ length: '15-25', width: '5' })).toBeCloseTo(Number(high) - Number(low), 6)
  })

  it('is rounded outwards to the step', () => {
    const { low, likely, high } = workOutBallpark(jobOf([{}]), table).range
    expect([Number(low) % 10, Number(high) % 10]).toEqual([0, 0])
    expect(likely).toBe('83.33')
  })

  it('is never under the minimum, and says when the minimum decides', () => {
    const least = testTable({ minimumCharge: '125' })
    const small = workOutBallpark(jobOf([{ measuredBy: 'eye' }], least), least)
    expect(small).toMatchObject({ minimumDecides: true, range: { low: '125.00', likely: '125.00' } })
    const large = workOutBallpark(jobOf([{ measuredBy: 'eye', count: 9 }], least), least)
    expect(large.minimumDecides).toBe(false)
  })

  it.each([
    // 175 and 8.5 %, 14.875: the step would make 190 to 200 of it.
    ['with a tax', taxOf({ rate: '0.085', inRanges: true }), '189.88'],
    ['without one', null, '175.00'],
  ])('is one figure where all of it is the minimum, %s', (_, tax, figure) => {
    const least = testTable({ minimumCharge: '175', tax })
    const job = jobOf([{ sizes: { length: '8', width: '5' }, measuredBy: 'eye' }], least)
    const { range, narrower } = workOutBallpark(job, least)
    expect(range).toMatchObject({ low: figure, likely: figure, high: figure })
    expect(narrower).toBeNull()
    // The first method rounds it up, as it always did.
    expect(workOutBallpark(job, least, { method: 1 }).range.high).not.toBe(figure)
  })

  it('sits on the plateau below a larger size of job', () => {
    const tiered = withTiers(fixed('100', { step: '1' }), ['10'], [0.5])
    const { range } = workOutBallpark(jobOf([{ shape: 'volume', sizes: { volume: '8 yd' } }], tiered), tiered)
    expect(range).toMatchObject({ low: '500.00', likely: '500.00', high: '500.00' })
  })
})

describe('what would narrow it', () => {
  const narrower = (beds: Parameters<typeof jobOf>[0]) => workOutBallpark(jobOf(beds), table).narrower

  it('names the sizes of the bed that matters', () => {
    const found = narrower([{ lying: 'bare' }, { measuredBy: 'eye', sizes: { length: '60', width: '20' } }])
    expect(found).toMatchObject({ what: 'sizes', bed: 1 })
  })

  it('names what lies there where that matters more', () => {
    expect(narrower([{ lying: 'unsure', sizes: { length: '60', width: '20' } }])).toMatchObject({
      what: 'lying',
      bed: 0,
    })
  })

  it('gives a range inside the one told', () => {
    const job = jobOf([{ measuredBy: 'eye', sizes: { length: '60', width: '20' } }])
    const { range, narrower: found } = workOutBallpark(job, table)
    expect(Number(found!.low)).toBeGreaterThan(Number(range.low))
    expect(Number(found!.high)).toBeLessThan(Number(range.high))
  })

  it('says a visit settles it when no one figure does', () => {
    const beds = Array.from({ length: 12 }, () => ({ measuredBy: 'eye', lying: 'unsure' }))
    expect(narrower(beds)).toEqual({ what: 'visit', bed: null, low: null, high: null })
  })

  it('is nothing when all is measured, or was told by volume', () => {
    expect(narrower([{}, { lying: 'bare', shape: 'oval' }])).toBeNull()
    expect(narrower([{ shape: 'volume', sizes: { volume: 'about 2 yd' }, lying: 'unsure' }])).toBeNull()
  })
})

describe('the answer to other programs', () => {
  it('has the figures, the texts of the cautions and no more', () => {
    const job = jobOf([
      { sizes: { length: '20 ft', width: '5 ft' }, depth: '3 in', count: 2 },
      { shape: 'area', sizes: { area: '9' } },
    ])
    const answer = ballparkAnswer(workOutBallpark(job, table), ({ code, params, source }) => ({
      text: `caution.${code} ${params.figure}`,
      source,
    }))
    expect(answer).toMatchObject({
      area: { value: '209.0000', unit: 'ft2' },
      inPlace: { value: '52.2500', unit: 'ft3' },
      beds: [
        { area: { value: '100.0000', unit: 'ft2' }, edge: { value: '50.0000', unit: 'ft' } },
        { area: { value: '9.0000', unit: 'ft2' }, edge: null },
      ],
      range: { likely: '174.17', currency: 'USD' },
      narrower: null,
      cautions: [
        { code: 'fire', text: 'caution.fire 18 in', source: 'Massachusetts fire code, 527 CMR 17' },
        { code: 'clearance', text: 'caution.clearance 6 in' },
        { code: 'trunks', text: 'caution.trunks 2 in' },
      ],
    })
    expect(Object.keys(answer)).toEqual([
      'area',
      'inPlace',
      'beds',
      'materials',
      'range',
      'narrower',
      'cautions',
    ])
    expect(Object.keys(answer.beds[0]!)).toEqual(['area', 'edge'])
  })
})
