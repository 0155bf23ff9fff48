import { expect, test } from 'vitest'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import { differenceOf } from '../../../src/rates/csv/difference.ts'
import { testTable } from '../../estimate/jobs.ts'
import { fullTable } from './tables.ts'

/** Every difference as "where: before -> after". */
function differences(after: RateTable, before = fullTable()): string[] {
  return differenceOf(before, after).map(one => `${one.where}: ${one.before} -> ${one.after}`)
}

function withFinish(index: number, changes: Partial<RateTable['finishes'][number]>): RateTable {
  const table = fullTable()
  return {
    ...table,
    finishes: table.finishes.map((one, at) => (at === index ? { ...one, ...changes } : one)),
  }
}

test('there is none between a table and itself, nor between figures of one value', () => {
  expect(differences(fullTable())).toEqual([])
  expect(differences({ ...fullTable(), promise: '0.8', step: '10.00' })).toEqual([])
})

test('a rate is named by its finish and the size of job', () => {
  const rates = fullTable().finishes[2]!.rates.map(rate => ({ ...rate }))
  rates[1]!.upper = '128'
  expect(differences(withFinish(2, { rates }))).toEqual([
    'Bark nuggets, rate from 5 yd³, upper: $117 per yd³ -> $128 per yd³',
  ])
  const [first, ...finishes] = testTable().finishes
  const one = {
    ...testTable(),
    finishes: [{ ...first!, rates: [{ lower: '80', upper: '104' }] }, ...finishes],
  }
  expect(differences(one, testTable())).toEqual(['Shredded wood, rate, upper: $100 per yd³ -> $104 per yd³'])
})

test('figures of one kind are named by what they are', () => {
  const table = fullTable()
  expect(
    differences({
      ...table,
      minimumCharge: '150',
      measuring: { ...table.measuring, eye: { ...table.measuring.eye, sigma: '0.16' } },
      costs: { ...table.costs, wage: null },
      tax: { ...table.tax!, taxed: { ...table.tax!.taxed, new: { ...table.tax!.taxed.new, laying: true } } },
    }),
  ).toEqual([
    'minimum charge: $0 -> $150',
    'wage: $24 per labor hour -> ',
    'measuring, eye, error: 14% -> 16%',
    'taxed in new work: laying: no -> yes',
  ])
})

test('a pack’s price is named by finish, pack and how many', () => {
  const [bag, ...packs] = fullTable().finishes[0]!.packs
  const prices = [bag!.prices[0]!, { from: '50', each: '3.75' }]
  expect(differences(withFinish(0, { packs: [{ ...bag!, prices }, ...packs] }))).toEqual([
    'Shredded wood, pack Bag, price from 50, each: $3.90 -> $3.75',
  ])
})

test('what is new and what is gone is told with its figures', () => {
  const table = fullTable()
  const [edging] = table.extras
  const [, , , , , stone] = table.finishes
  const found = differences({
    ...table,
    finishes: table.finishes.slice(0, 5),
    extras: [edging!],
    carriers: [...table.carriers, { name: { en: 'Cart', es: 'Carro' }, volume: '1', payload: null }],
  })
  expect(stone!.name.en).toBe('Stone')
  expect(found.map(one => one.split(':')[0])).toEqual([
    'Stone',
    'Stone, rate from 0 yd³',
    'Stone, rate from 5 yd³',
    'Stone, rate from 10 yd³',
    'Weed the beds first',
    'carrier Cart',
  ])
  expect(found[1]).toBe(
    'Stone, rate from 0 yd³: finish stone; from size 0 yd³; lower $150 per yd³; upper $190 per yd³ -> ',
  )
  expect(found[5]).toBe('carrier Cart:  -> name Cart; name in Spanish Carro; volume 1 yd³')
})

test('postcodes are told one by one, without the apostrophe that keeps them texts', () => {
  const [first, second] = fullTable().travel
  const travel = [first!, { drive: null, driven: null, charge: '45', postcodes: ['01235', '00501'] }]
  expect(second!.charge).toBe('40.50')
  expect(differences({ ...fullTable(), travel })).toEqual([
    'travel to 01235, charge: $40.50 -> $45',
    'travel to 00501:  -> zone 2; postcode 00501; charge $45',
  ])
})

test('another order is a difference of its own', () => {
  const table = fullTable()
  const [first, second] = table.carriers
  expect(differences({ ...table, carriers: [second!, first!] })).toEqual([
    'order of carriers: carrier Truck; carrier Trailer -> carrier Trailer; carrier Truck',
  ])
})

test('of two with one name the first is held against the first', () => {
  const table = fullTable()
  const [truck] = table.carriers
  const two = { ...table, carriers: [truck!, { ...truck!, volume: '3' }] }
  const changed = { ...table, carriers: [truck!, { ...truck!, volume: '4' }] }
  expect(differences(changed, two)).toEqual(['carrier Truck, volume: 3 yd³ -> 4 yd³'])
})

test('a difference is told as people read it: taxes in percent, separators in figures, and no names of photos', () => {
  const table = fullTable()
  const [truck, ...carriers] = table.carriers
  const [first, ...finishes] = table.finishes
  const found = differences({
    ...table,
    finishes: [{ ...first!, photo: 'f'.repeat(64) }, ...finishes],
    carriers: [{ ...truck!, payload: '12500' }, ...carriers],
    tax: { ...table.tax!, rate: '0.0625' },
  })
  expect(found).toContain('carrier Truck, payload: 4,000 lb -> 12,500 lb')
  expect(found).toContain('tax rate: 8.25% -> 6.25%')
  expect(found.find(one => one.includes('photo'))).toMatch(/: a photo -> another photo$/)
})
