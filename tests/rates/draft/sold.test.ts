import { expect, it } from 'vitest'
import type { Finish, RateTable } from '../../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../../src/estimate/table/rate-table-schema.ts'
import { differenceOf } from '../../../src/rates/csv/difference.ts'
import { readSection, sectionValues } from '../../../src/rates/draft/section-form.ts'
import { findSection } from '../../../src/rates/draft/sections-of.ts'
import { testTable, withTiers } from '../../estimate/jobs.ts'

const BALE = { saleUnit: 'bale', baleCovers: '20', soldDepth: '3' }

function send(typed: Record<string, string>, table: RateTable) {
  const section = findSection(table, 'finish.pine-straw')!
  return readSection(section, table, { ...sectionValues(section, table), ...typed })
}

function straw(changes: Partial<Finish>): RateTable {
  const table = withTiers(testTable(), ['5'], [0.9])
  const finishes = table.finishes.map(one => (one.slug === 'pine-straw' ? { ...one, ...changes } : one))
  // As read from what is stored: no two finishes share a list.
  return rateTableSchema.parse({ ...table, finishes })
}

it('a material may be sold by the bale while its rates stay those per cubic yard', () => {
  const read = send(BALE, straw({}))
  expect(read.ok).toBe(true)
  expect(read.ok && differenceOf(straw({}), read.values)).toEqual([
    { where: 'Pine straw, sold by', before: 'volume', after: 'bale' },
    { where: 'Pine straw, bale covers', before: '', after: '20 ft²' },
    { where: 'Pine straw, sold depth', before: '', after: '3 in' },
  ])
})

it('rates for another unit have to be typed: those that were there would be another price', () => {
  const asThey = send({ ...BALE, ratesPer: 'sold' }, straw({}))
  expect(asThey.ok).toBe(false)
  expect(!asThey.ok && asThey.errors).toEqual({
    ratesPer: 'The rates above are still those per yd³. Type what you charge per bale.',
  })
  const typed = { 'rates.0.lower': '12', 'rates.0.upper': '16', 'rates.1.lower': '11', 'rates.1.upper': '15' }
  const read = send({ ...BALE, ratesPer: 'sold', ...typed }, straw({}))
  expect(read.ok && read.values.finishes[3]!.rates[0]).toEqual({ lower: '12', upper: '16' })
  expect(read.ok && differenceOf(straw({}), read.values)).toContainEqual({
    where: 'Pine straw, rate from 0 yd³, lower',
    before: '$70 per yd³',
    after: '$12 per bale',
  })
})

it('back to cubic yards it is the same', () => {
  const sold = { saleUnit: 'bale', ratesPer: 'sold', baleCovers: '20', soldDepth: '3' } as const
  const read = send({ saleUnit: 'volume' }, straw(sold))
  expect(!read.ok && read.errors.ratesPer).toMatch(/still those per bale\. Type what you charge per yd³\./)
})

it('a unit of which it isn’t said how much it is is refused beside the figure', () => {
  const read = send({ saleUnit: 'bale', soldDepth: '3' }, straw({}))
  expect(!read.ok && Object.keys(read.errors)).toEqual(['baleCovers'])
  const ton = send({ saleUnit: 'ton' }, straw({}))
  expect(!ton.ok && Object.keys(ton.errors)).toEqual(['soldDensity'])
})
