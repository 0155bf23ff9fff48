import { describe, expect, it } from 'vitest'
import { nearPrint, worked } from './worked.ts'

describe('published worked examples of beds', () => {
  it.each([
    // UF/IFAS Extension Polk County, "Mulch", 2016: 25 ft³, 0.926 yd³.
    ['20 ft', '5 ft', '3 in', '25.0000', 0.926],
    // UF/IFAS Gardening Solutions: 12 × 12 ft at 3 in is 36 ft³; 1.3333 yd³.
    ['12', '12', '3', '36.0000', 1.3333],
    // LSU AgCenter column, 2002-12-01: 20 × 30 ft at 3 in is 150 ft³, 5.56 yd³.
    ['30', '20', '3', '150.0000', 5.56],
    // "Landscape Management Practices", agriculture-education slides: 3 × 4 ft at 2 in, .075 yd³.
    ['4', '3', '2', '2.0000', 0.075],
    // The same slides: 6 ft 6 in × 2 ft at 2 in, .08 yd³.
    ['6\' 6"', '2', '2', '2.1667', 0.08],
    // University of Regina, Math Central: 2 ft³ laid 1 in deep and 3 ft wide is 8 ft long.
    ['8', '3', '1', '2.0000', 2 / 27],
  ])('%s × %s at %s', (length, width, depth, cubicFeet, printedYards) => {
    const bed = worked({ sizes: { length, width }, depth })
    expect(bed.inPlace).toBe(cubicFeet)
    expect(nearPrint(bed.bulk, printedYards)).toBe(true)
  })

  // UF/IFAS Miami-Dade, Florida Yards & Neighborhoods workbook: a cubic yard covers 108 ft² at 3 in.
  it.each([
    ['324', '1'],
    ['162', '2'],
    ['108', '3'],
    ['81', '4'],
  ])('a cubic yard covers %s ft² at %s in', (area, depth) => {
    expect(worked({ shape: 'area', sizes: { area }, depth }).inPlace).toBe('27.0000')
  })

  // UF/IFAS Miami-Dade, and LSU AgCenter column, 2002-12-01: a 2 ft³ bag covers 8 ft² at 3 in.
  it('a bag of 2 ft³ covers 8 ft² at 3 in', () => {
    expect(worked({ shape: 'area', sizes: { area: '8 sq ft' }, depth: '3' }).inPlace).toBe('2.0000')
  })

  // Common practice of the trade, and exact.
  it('a cubic foot covers 12 ft² at 1 in', () => {
    expect(worked({ shape: 'area', sizes: { area: '12' }, depth: '1 in' }).inPlace).toBe('1.0000')
  })

  // UF/IFAS Miami-Dade: a level mini pickup holds 1.5 yd³, a full-size one 2.5 yd³.
  it.each([
    ['1.5 cubic yards', '162.0000'],
    ['2.5 cubic yards', '270.0000'],
  ])('a pickup of %s covers %s ft² at 3 in', (volume, area) => {
    expect(worked({ shape: 'volume', sizes: { volume }, depth: '3' }).area).toBe(area)
  })

  // Gravel at 1.3 ton a cubic yard covers 124.6 ft² a ton at 2 in (exact arithmetic on the trade's weight).
  it('a ton of gravel covers 124.6 ft² at 2 in', () => {
    const ton = worked({
      shape: 'volume',
      sizes: { volume: `${(27 / 1.3).toFixed(8)} ft3` },
      depth: '2',
      finish: 'stone',
    })
    expect(Number(ton.area)).toBeCloseTo(124.6, 1)
  })

  // Half an inch too much on 3 in is 17 % more material (exact arithmetic).
  it('half an inch too much is a sixth more', () => {
    const [meant, laid] = ['3', '3.5'].map(depth => Number(worked({ depth }).inPlace))
    expect(laid! / meant!).toBeCloseTo(7 / 6, 5)
  })
})
