import { expect, it } from 'vitest'
import { readTold } from '../../../src/estimate/reading/read-beds.ts'
import { listOf, valuesOf } from '../../../src/estimate/shapes/sizes.ts'
import { testTable, toldBed } from '../jobs.ts'

const table = testTable()

/** Widths along a line, as they are understood in feet, and what else they may have meant. */
function widthsOf(offsets: unknown) {
  const sizes = { spacing: '10', offsets } as Record<string, string>
  const reading = readTold({ beds: [toldBed({ shape: 'offsets', sizes })] }, table)
  if (!reading.ok) return { faults: reading.faults.map(({ key }) => key) }
  const widths = listOf(valuesOf(reading.job.beds[0]!.sizes), 'offsets').map(width => width.toFixed())
  return { widths: widths.join(' '), other: reading.instead['beds.0.sizes.offsets']?.[0] }
}

it.each([
  ['0 2.5 3.5 0', '0 2.5 3.5 0'],
  ['10 12 1/2 9', '10 12.5 9'],
  ['10; 12 1/2; 9', '10 12.5 9'],
  ['10, 14, 18', '10 14 18'],
  ['10,14,18', '10 14 18'],
  ['2,5 3,5 4,5', '2.5 3.5 4.5'],
  ['12 14 18 ft', '12 14 18'],
  ['4 5 6 yd', '12 15 18'],
  ['10 ft 6 in 9 ft 1.5 ft', '10.5 9 1.5'],
  [`10' 6" 12' 3" 9'`, '10.5 12.25 9'],
  ['10 ft; 6; 9 ft', '10 6 9'],
  ['10 ft 14 18', '10 14 18'],
  ['ten twenty-five thirty', '10 25 30'],
  ['twenty five thirty forty', '25 30 40'],
  ['about 10 12', null],
])('the widths %s are %s', (typed, widths) => {
  const read = widthsOf(typed)
  if (widths === null) expect(read.faults).toEqual(['fault.length-unreadable'])
  else expect(read).toEqual({ widths, other: undefined })
})

it.each([
  // A small unit at the end is for all of them, or for the last.
  ['12 18 24 in', '1 1.5 2', '12 18 2'],
  ['12, 18, 24 in', '1 1.5 2', '12 18 2'],
  ['12; 18; 24"', '1 1.5 2', '12 18 2'],
  ['0 24 0 in', '0 2 0', '0 24 0'],
  // A unit at the start alone is for all of them, or for the first; a small one rather for the first.
  ['3.048 m 6.096 9.144', '10 20 30', '10 6.096 9.144'],
  ['2 yd; 3; 4', '6 9 12', '6 3 4'],
  ['36" 18 18', '3 18 18', '3 1.5 1.5'],
  ['5 2 yd 3 yd 4', '15 6 9 12', '5 6 9 4'],
  ['36 in, 24, 12', '3 24 12', '3 2 1'],
  // What is less than twelve after feet is inches, or a width of its own.
  [`10' 6 12' 3 9'`, '10.5 12.25 9', '10 6 12 3 9'],
  ['9 ft 6 10 ft 6 12 ft 3', '9.5 10.5 12.25', '9 6 10 6 12 3'],
  // One entry with two readings.
  ['10 5.6 9', '10 5.6 9', '10 5.5 9'],
])('the widths %s are %s, or %s', (typed, widths, other) => {
  const read = widthsOf(typed)
  expect(read.widths).toBe(widths)
  expect(widthsOf(read.other)).toEqual({ widths: other, other: undefined })
})

it('entries that another program sends each stand for themselves', () => {
  expect(widthsOf(['12', '18', '24 in'])).toEqual({ widths: '12 18 2', other: undefined })
})

it.each(['12 25-20 9', '10 400 ft2 9', '10 x 5'])('of the widths %s one is refused', typed => {
  expect(widthsOf(typed).faults).toHaveLength(1)
})
