import { afterAll, beforeAll, expect, test } from 'vitest'
import { Decimal } from '../../src/lib/decimal.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { bedTold } from '../helpers/requests.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

async function ballpark(bed: Parameters<typeof bedTold>[0]) {
  const answer = await app
    .browser()
    .post('/ballpark')
    .send({ beds: [bedTold(bed)], extras: [], postcode: '' })
  expect(answer.status).toBe(200)
  return answer.body
}

/** As far as the answer goes: four decimals, the last one rounded half up. */
const fourDecimals = (exact: Decimal) => exact.toFixed(4)

// Volumes in place; where a source prints a rounded figure, the printed inputs are worked out exactly.

test('5 × 20 ft, 3 in: 25 cubic feet (UF/IFAS Extension Polk County, Mulch, 2016)', async () => {
  const { inPlace } = await ballpark({ sizes: { length: '20 ft', width: '5 ft' }, depth: '3 in' })
  expect(inPlace).toEqual({ value: '25.0000', unit: 'ft3' })
})

test('12 × 12 ft, 3 in: 36 cubic feet (UF/IFAS Gardening Solutions)', async () => {
  const { inPlace } = await ballpark({ sizes: { length: '12 ft', width: '12 ft' }, depth: '3 in' })
  expect(inPlace).toEqual({ value: '36.0000', unit: 'ft3' })
})

test('20 × 30 ft, 3 in: 150 cubic feet (LSU AgCenter column, 2002-12-01)', async () => {
  const { inPlace } = await ballpark({ sizes: { length: '20', width: '30' }, depth: '3' })
  expect(inPlace).toEqual({ value: '150.0000', unit: 'ft3' })
})

test('3 × 4 ft, 2 in: 2 cubic feet, printed as .075 cubic yards (slides “Landscape Management Practices”)', async () => {
  const { inPlace } = await ballpark({ sizes: { length: '3x4', width: '' }, depth: '2 in' })
  expect(inPlace).toEqual({ value: '2.0000', unit: 'ft3' })
})

test('6 ft 6 in × 2 ft, 2 in: 2 1/6 cubic feet, printed as .08 cubic yards (slides “Landscape Management Practices”)', async () => {
  const { inPlace } = await ballpark({ sizes: { length: `6' 6"`, width: '2 ft' }, depth: '2 in' })
  expect(inPlace).toEqual({ value: fourDecimals(new Decimal(13).div(6)), unit: 'ft3' })
})

test('2 cubic feet laid 1 in deep and 3 ft wide reach 8 ft (University of Regina, Math Central)', async () => {
  const { inPlace } = await ballpark({ sizes: { length: '8 ft', width: '3 ft' }, depth: '1 in' })
  expect(inPlace).toEqual({ value: '2.0000', unit: 'ft3' })
})

test('108 square feet at 3 in: one cubic yard (UF/IFAS Miami-Dade, Florida Yards & Neighborhoods workbook)', async () => {
  const { inPlace } = await ballpark({ shape: 'area', sizes: { area: '108 sq ft' }, depth: '3 in' })
  expect(inPlace).toEqual({ value: '27.0000', unit: 'ft3' })
})

test('a circle 20 ft across: 314.159 square feet (University of Tennessee PSEP)', async () => {
  const { area } = await ballpark({ shape: 'circle', sizes: { diameter: '20 ft' } })
  expect(area.unit).toBe('ft2')
  expect(new Decimal(area.value).toFixed(3)).toBe('314.159')
})

test('a triangle of 40 × 80 ft: 1,600 square feet (Virginia Turfgrass Council)', async () => {
  const { area } = await ballpark({ shape: 'triangle', sizes: { base: '40 ft', height: '80 ft' } })
  expect(area).toEqual({ value: '1600.0000', unit: 'ft2' })
})

test('an ellipse of 15 × 5 ft: 58.9 square feet (“How to measure an area” fact sheet, publisher not shown)', async () => {
  const { area } = await ballpark({ shape: 'oval', sizes: { length: '15 ft', width: '5 ft' } })
  expect(new Decimal(area.value).toFixed(1)).toBe('58.9')
})
