import { expect, it } from 'vitest'
import { readTold } from '../../../src/estimate/reading/read-beds.ts'
import { testTable, toldBed } from '../jobs.ts'

/** What is understood of a bed along a wall as 'length x width', or what is wrong in which box. */
function sidesOf(length: string, width = '') {
  const sizes = { length, width } as Record<string, string>
  const reading = readTold({ beds: [toldBed({ shape: 'strip', sizes })] }, testTable())
  if (!reading.ok)
    return reading.faults.map(({ field, key }) => `${field.replace('beds.0.sizes.', '')} ${key}`)
  const bed = reading.job.beds[0]!.sizes
  return `${bed.length!.value.toFixed()} x ${bed.width!.value.toFixed()}`
}

it.each([
  ['40 x 3 ft', '40 x 3'],
  ['40 ft long x 3 ft wide', '40 x 3'],
  ['3 ft wide x 40 ft long', '40 x 3'],
  ['3 ft wide x 40 ft', '40 x 3'],
  ['3 ft x 40 ft long', '40 x 3'],
  ['3 wide by 40 long', '40 x 3'],
  ['3 ft deep x 40 ft', '40 x 3'],
  ['40 ft wide x 3 ft deep', '40 x 3'],
  ['3 ft deep by 40 ft wide', '40 x 3'],
  ['3 pies de ancho x 40 pies de largo', '40 x 3'],
  ['3 pies de ancho por 40', '40 x 3'],
  ['40 pies de largo por 3 de ancho', '40 x 3'],
])('the words of %s decide: %s', (typed, sides) => {
  expect(sidesOf(typed)).toBe(sides)
})

it.each([
  ['3 ft wide', '40', 'length'],
  ['3 pies de ancho', '40', 'length'],
  ['40', '3 ft long', 'width'],
  ['3 ft wide x 40 ft wide', '', 'length'],
  ['3 largo x 40 largo', '', 'length'],
])('%s with %s contradicts the box, which is asked', (length, width, at) => {
  expect(sidesOf(length, width)[0]).toBe(`${at} fault.other-side`)
})

it('sides in their own boxes may say so', () => {
  expect(sidesOf('40 ft long', '3 ft wide')).toBe('40 x 3')
  expect(sidesOf('40 ft', '3 ft deep')).toBe('40 x 3')
})
