import { describe, expect, it } from 'vitest'
import { nearPrint, worked } from './worked.ts'

describe('published worked examples of areas', () => {
  it.each<[string, Record<string, string>, 'us' | 'metric', string, number]>([
    // "How to measure an area", fact sheet, publisher not shown: 58.9 ft².
    ['oval', { length: '15', width: '5' }, 'us', '58.9049', 58.9],
    // University of Tennessee Pesticide Safety Education Program: 314.159 ft².
    ['circle', { diameter: '20 ft' }, 'us', '314.1593', 314.159],
    // Wyoming Department of Agriculture: 1,256 ft² with pi as 3.14.
    ['circle', { diameter: '40' }, 'us', '1256.6371', 1256],
    // Virginia Turfgrass Council: 1,600 ft².
    ['triangle', { base: '80', height: '40' }, 'us', '1600.0000', 1600],
    // Western Australia TAFE: 2,000 m² and 600 m².
    ['triangle', { base: '80 m', height: '50 m' }, 'metric', '2000.0000', 2000],
    ['rectangle', { length: '30', width: '20' }, 'metric', '600.0000', 600],
    // University of Missouri, 2010: (A + B) ÷ 2 × h; the figures are ours, the sum exact arithmetic.
    ['trapezoid', { base: '30', top: '20', height: '12' }, 'us', '300.0000', 300],
    // Heron of Alexandria's own example, Metrica I.8: sides 7, 8 and 9 give the root of 720 (from memory).
    ['sides', { a: '7', b: '8', c: '9' }, 'us', '26.8328', 26.83],
    // Radii 5 and 2 ft: 21 pi (exact arithmetic).
    ['ring', { outer: '10', inner: '4' }, 'us', '65.9734', 65.973],
  ])('%s of %j', (shape, sizes, units, area, printed) => {
    const bed = worked({ shape, sizes, depth: units === 'us' ? '3' : '7.5' }, units)
    expect(bed.area).toBe(area)
    expect(nearPrint(Number(bed.area), printed)).toBe(true)
  })

  it.each<[string, Record<string, string>, string, number]>([
    // Punmia, Surveying: offsets in metres; inputs as printed, answers from memory and by exact arithmetic.
    ['offsets', { spacing: '10', offsets: '0 2.5 3.5 5.0 4.6 3.2 0' }, '196.6667', 196.67],
    [
      'offsets',
      { spacing: '15', offsets: '3.50 4.30 6.75 5.25 7.50 8.80 7.90 6.40 4.40 3.25' },
      '813.3750',
      813.38,
    ],
    [
      'uneven-offsets',
      { spacings: '10 10 10 10 10 10', offsets: '0 2.5 3.5 5.0 4.6 3.2 0' },
      '196.6667',
      196.67,
    ],
    [
      'uneven-offsets',
      {
        spacings: '15 '.repeat(9),
        offsets: '3.50 4.30 6.75 5.25 7.50 8.80 7.90 6.40 4.40 3.25',
      },
      '813.3750',
      813.38,
    ],
  ])('%s of %j in metres', (shape, sizes, area, printed) => {
    const bed = worked({ shape, sizes, depth: '7.5' }, 'metric')
    expect(bed.area).toBe(area)
    expect(nearPrint(Number(bed.area), printed)).toBe(true)
  })

  // City of Santa Ana CA, Exhibit A p. 29, 2025, prints 850 ft²: spacing × the sum of the widths, which takes the bed to
  // be as wide as each width half a spacing to either side. With ends at zero Simpson's rule gives 5.9 % more.
  it('the sum of the widths times their spacing falls short of Simpson’s rule', () => {
    const bed = worked({ shape: 'offsets', sizes: { spacing: '10', offsets: '0 15 10 15 25 20 0' } })
    expect(bed.area).toBe('900.0000')
    expect(Number(bed.area) / 850 - 1).toBeCloseTo(0.0588, 4)
  })

  // "How to measure an area", fact sheet, publisher not shown, prints 2,380.8 ft²: 128 ft × the mean of ten widths. That
  // counts the narrow ends as much as the rest; the trapezoid rule counts them half and comes to 5.7 % more (128 ÷ 9 × 177).
  // Simpson's rule takes the bed to bend smoothly through the widths, four of which stand out: 12.2 % more than is printed.
  it('the mean width times the length falls short of Simpson’s rule', () => {
    const offsets = '10 14 18 35 13 30 23 20 15 8'
    const widths = offsets.split(' ').map(Number)
    const mean = widths.reduce((sum, width) => sum + width, 0) / 10
    expect(128 * mean).toBeCloseTo(2380.8, 9)
    // Exact arithmetic: eight strips by Simpson, (10 + 4·(14 + 35 + 30 + 20) + 2·(18 + 13 + 23) + 15) ÷ 3; one trapezoid.
    const strips = (10 + 4 * (14 + 35 + 30 + 20) + 2 * (18 + 13 + 23) + 15) / 3 + (15 + 8) / 2
    const area = Number(worked({ shape: 'offsets', sizes: { spacing: String(128 / 9), offsets } }).area)
    expect(area).toBeCloseTo((128 / 9) * strips, 3)
    expect(area / 2380.8 - 1).toBeCloseTo(0.1221, 4)
    expect(((128 / 9) * 177) / 2380.8 - 1).toBeCloseTo(0.0573, 4)
  })

  // The same sheet prints 471 ft²: the square of the mean radius. The mean of the squares is the right rule: 5.3 % more.
  it('the square of the mean radius falls short of the mean of the squares', () => {
    const radii = '10 15 10 12 15 13 10 15 17 9 8 15 16 10 12 9'
    const area = Number(worked({ shape: 'radii', sizes: { radii } }).area)
    const printed = radii.split(' ').map(Number)
    const squares = printed.reduce((sum, radius) => sum + radius * radius, 0) / 16
    expect(area).toBeCloseTo(Math.PI * squares, 3)
    expect(area).toBeCloseTo(496.4, 1)
    const mean = printed.reduce((sum, radius) => sum + radius, 0) / 16
    expect(Math.PI * mean ** 2).toBeCloseTo(471, 0)
    expect(area / 471 - 1).toBeCloseTo(0.0539, 3)
  })

  // University of Missouri, 2010: "within 5 %". On an ellipse twice as long as wide six strips of Simpson are 2.9 % short.
  it('six strips of an ellipse by Simpson’s rule are 2.9 % short', () => {
    const widths = Array.from({ length: 7 }, (_, at) => 10 * Math.sqrt(1 - ((at - 3) / 3) ** 2))
    const sizes = { spacing: String(20 / 6), offsets: widths.map(width => width.toFixed(9)).join(' ') }
    const area = Number(worked({ shape: 'offsets', sizes }).area)
    expect(1 - area / (Math.PI * 10 * 5)).toBeCloseTo(0.029, 3)
  })

  // Exact arithmetic: from 16 equal angles up the mean of the squares is exact for an ellipse round its middle.
  it('sixteen radii of an ellipse give its area', () => {
    const radii = Array.from({ length: 16 }, (_, at) => {
      const angle = (2 * Math.PI * at) / 16
      return (10 * 5) / Math.hypot(5 * Math.cos(angle), 10 * Math.sin(angle))
    })
    const area = Number(
      worked({ shape: 'radii', sizes: { radii: radii.map(one => one.toFixed(9)).join(' ') } }).area,
    )
    expect(area / (Math.PI * 10 * 5)).toBeCloseTo(1, 3)
  })

  // "0.8 × length × width" for an oval is 1.9 % long (exact arithmetic): the rule of thumb isn't ours.
  it('an oval is less than four fifths of its length times its width', () => {
    const oval = Number(worked({ shape: 'oval', sizes: { length: '10', width: '5' } }).area)
    expect((0.8 * 10 * 5) / oval - 1).toBeCloseTo(0.019, 3)
  })
})
