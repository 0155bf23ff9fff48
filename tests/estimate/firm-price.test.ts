import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { extraStart } from '../../src/estimate/table/complete-table.ts'
import { anyBeds } from './generated.ts'
import { jobOf, testTable, withTiers } from './jobs.ts'

const table = testTable()
const cubic = (feet: number, finish = 'shredded-wood') => ({
  shape: 'volume',
  sizes: { volume: `${feet} ft3` },
  finish,
})

describe('the firm price', () => {
  it('is each finish’s volume in place at the middle of its rate', () => {
    // 54 ft³ is 2 yd³ at (80 + 100) ÷ 2; 27 ft³ is 1 yd³ at (150 + 190) ÷ 2.
    const price = workOutPrice(jobOf([cubic(54), cubic(27, 'stone')]), table)
    expect(price.lines).toMatchObject([
      {
        kind: 'finish',
        slug: 'shredded-wood',
        quantity: { value: '2.0000', unit: 'yd3' },
        rate: '90.00',
        amount: '180.00',
      },
      {
        kind: 'finish',
        slug: 'stone',
        quantity: { value: '1.0000', unit: 'yd3' },
        rate: '170.00',
        amount: '170.00',
      },
    ])
    expect(price).toMatchObject({ total: '350.00', inPlace: { value: '81.0000', unit: 'ft3' } })
  })

  it('rounds each line half up to the cent, though a 27th has no end in decimals', () => {
    // 0.15 ft³ × 90.90 ÷ 27 is exactly 0.505.
    const odd = {
      ...table,
      finishes: table.finishes.map(f => ({ ...f, rates: [{ lower: '90.90', upper: '90.90' }] })),
    }
    expect(workOutPrice(jobOf([cubic(0.15)], odd), odd).total).toBe('0.51')
  })

  it('also where a twelfth of a foot has no end in decimals', () => {
    // 19 ft² less 15 % at 2 in are 32.3 ÷ 12 ft³; at 81 a yd³ exactly 8.075.
    const odd = {
      ...table,
      finishes: table.finishes.map(f => ({ ...f, rates: [{ lower: '81', upper: '81' }] })),
    }
    const bed = { shape: 'area', sizes: { area: '19' }, depth: '2', planted: 'half' }
    expect(workOutPrice(jobOf([bed], odd), odd).total).toBe('8.08')
  })

  it('fills up to a larger size of job with the cheapest finish offered, so that a cheap bed added takes nothing off', () => {
    // From 2 yd³ on seven tenths: stone 119, pine straw 57.75. 1.9 × 119 + 0.1 × 57.75 = 231.875, less than 1.9 × 170.
    const tiered = withTiers(table, ['2'], [0.7])
    expect(workOutPrice(jobOf([cubic(51.3, 'stone')], tiered), tiered).total).toBe('231.88')
    // 1.9 × 119 + 0.01 × 57.75 + 0.09 × 57.75 is the same money.
    const more = jobOf([cubic(51.3, 'stone'), cubic(0.27, 'pine-straw')], tiered)
    expect(workOutPrice(more, tiered).total).toBe('231.88')
  })

  it('adds extras by their unit', () => {
    const extra = (slug: string, per: 'job' | 'bed' | 'volume', lower: string) => ({
      ...extraStart,
      slug,
      per,
      lower,
      upper: lower,
      laborHours: { lower: '0.5', upper: '0.5' },
      name: { en: slug, es: slug },
      cautions: [],
    })
    const more = {
      ...table,
      extras: [
        ...table.extras,
        extra('protect', 'job', '25'),
        extra('prune', 'bed', '4'),
        extra('haul', 'volume', '11.5'),
      ],
    }
    const job = jobOf([{ count: 2 }], more, ['edging', 'weeding', 'protect', 'prune', 'haul'])
    const price = workOutPrice(job, more)
    const extras = price.lines.filter(line => line.kind === 'extra')
    expect(
      extras.map(line => [line.slug, line.quantity?.value ?? null, line.quantity?.unit, line.amount]),
    ).toEqual([
      ['edging', '100.0000', 'ft', '70.00'],
      ['weeding', '200.0000', 'ft2', '40.00'],
      ['protect', null, undefined, '25.00'],
      ['prune', '2', 'bed', '8.00'],
      ['haul', '1.8519', 'yd3', '21.30'],
    ])
    expect(price.laborHours).toEqual([
      { task: 'spread', hours: '1.39' },
      { task: 'edging', hours: '2.00' },
      { task: 'weeding', hours: '0.40' },
      { task: 'protect', hours: '0.50' },
      { task: 'prune', hours: '1.00' },
      { task: 'haul', hours: '0.93' },
    ])
    expect(price.laborHoursTotal).toBe('6.22')
  })

  it('charges travel by postcode, whole or by its beginning, before the minimum', () => {
    const served = {
      ...table,
      minimumCharge: '120',
      travel: [
        { postcodes: ['43001', '4302*'], charge: '15', drive: null, driven: null },
        { postcodes: ['SW1A*'], charge: '30', drive: null, driven: null },
      ],
    }
    const linesAt = (postcode: string) =>
      workOutPrice(jobOf([cubic(27)], served, [], postcode), served).lines.map(line => [
        line.kind,
        line.amount,
      ])
    const dressed = ['finish', '90.00']
    expect(linesAt('')).toEqual([dressed, ['minimum', '30.00']])
    expect(linesAt('43001')).toEqual([dressed, ['travel', '15.00'], ['minimum', '15.00']])
    expect(linesAt('43001-1234')).toEqual([dressed, ['travel', '15.00'], ['minimum', '15.00']])
    expect(linesAt('43029')).toEqual([dressed, ['travel', '15.00'], ['minimum', '15.00']])
    expect(linesAt('sw1a 2aa')).toEqual([dressed, ['travel', '30.00']])
    expect(linesAt('99999')).toEqual([dressed, ['minimum', '30.00']])
  })

  it('prices a job as the next size up where that costs less, on a line of its own', () => {
    const onlyWood = { ...table, finishes: table.finishes.slice(0, 1) }
    const tiered = withTiers(onlyWood, ['5', '10'], [0.8, 0.7])
    const lines = (feet: number) =>
      workOutPrice(jobOf([cubic(feet)], tiered), tiered).lines.map(line => [line.kind, line.amount])
    // 4 yd³ at 90 is 360, as 5 yd³ at 72 it is 360 as well; 4.5 yd³ would be 405.
    expect(lines(108)).toEqual([['finish', '360.00']])
    expect(lines(121.5)).toEqual([
      ['finish', '405.00'],
      ['size', '-45.00'],
    ])
    expect(lines(135)).toEqual([['finish', '360.00']])
    expect(lines(270)).toEqual([['finish', '630.00']])
  })

  it('knows its cost and margin once every cost is known', () => {
    const priced = {
      ...table,
      costs: { ...table.costs, wage: '40' },
      finishes: table.finishes.map(f => ({ ...f, materialCost: '30' })),
    }
    const price = workOutPrice(jobOf([cubic(54)], priced), priced)
    // 2 yd³ × 1.05 × 30 + 1.5 h × 40 = 63 + 60; (180 − 123) ÷ 180.
    expect([price.cost, price.margin]).toEqual(['123.00', '0.3167'])
    expect(price.toOrder).toEqual([{ finish: 'shredded-wood', amount: { value: '2.1000', unit: 'yd3' } }])
    const half = { ...priced, costs: { ...table.costs, wage: null } }
    expect(workOutPrice(jobOf([cubic(54)], half), half)).toMatchObject({ cost: null, margin: null })
    const [first, ...rest] = priced.finishes
    const unknown = { ...priced, finishes: [{ ...first!, materialCost: null }, ...rest] }
    expect(workOutPrice(jobOf([cubic(54)], unknown), unknown)).toMatchObject({ cost: null, margin: null })
  })
})

it('its lines sum to its total, which is the ballpark’s likely, for any job', () => {
  const tiered = withTiers({ ...table, minimumCharge: '95.50' }, ['2', '6'], [0.85, 0.7])
  const extras = fc.subarray(['edging', 'weeding'])
  fc.assert(
    fc.property(anyBeds, extras, (beds, slugs) => {
      const job = jobOf(beds, tiered, slugs)
      const price = workOutPrice(job, tiered)
      const cents = price.lines.reduce((sum, line) => sum + Math.round(Number(line.amount) * 100), 0)
      expect((cents / 100).toFixed(2)).toBe(price.total)
      const { range, minimumDecides } = workOutBallpark(job, tiered)
      expect(range.likely).toBe(price.total)
      expect(minimumDecides).toBe(price.lines.some(line => line.kind === 'minimum'))
    }),
    { numRuns: 60 },
  )
})
