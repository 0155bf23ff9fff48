import { describe, expect, it } from 'vitest'
import { buyForExtra } from '../../../src/estimate/packs/offers.ts'
import type { Pack } from '../../../src/estimate/table/pack.ts'
import { Decimal } from '../../../src/lib/decimal.ts'
import { bag, bale, bulk, buying, extraOf, flat, piece, roll, tableWith, told, weighed } from './made.ts'

const taken = (need: string | number | Decimal, packs: Pack[], changes = {}, finish = {}) =>
  told(buying(need, tableWith(packs, changes, finish)).taken)
const brought = (fee: string, freeFrom: string | null = null) => ({
  collected: false,
  delivered: { fee, freeFrom },
})

// Every price here is invented.
describe('whole packs', () => {
  it.each<[string, Pack, string]>([
    // 13.5 bags of 2 ft³ a yd³: 14 at 4.
    ['1', bag(), 'bag:collected 14 units, 56.00 + 0.00 + 0.00 tax, 1 trips'],
    ['2', bag(), 'bag:collected 27 units, 108.00 + 0.00 + 0.00 tax, 1 trips'],
    // A bale of 20 ft² at 3 in is 5 ft³: 5.4 a yd³.
    ['1', bale(), 'bale:collected 6 units, 36.00 + 0.00 + 0.00 tax, 1 trips'],
    // By half yards: 2.1 is 2.5 at 32.
    ['2.1', bulk(), 'bulk:collected 2.5 units, 80.00 + 0.00 + 0.00 tax, 1 trips'],
    ['2.1', bulk({ least: '3' }), 'bulk:collected 3 units, 96.00 + 0.00 + 0.00 tax, 1 trips'],
    // 2.6 tons for 2 yd³ at 2,600 lb, by tenths and by whole ones.
    ['2', weighed({ step: '0.1' }), 'ton:collected 2.6 units, 104.00 + 0.00 + 0.00 tax, 1 trips'],
    ['2', weighed(), 'ton:collected 3 units, 120.00 + 0.00 + 0.00 tax, 1 trips'],
  ])('%s yd³ of %j', (need, pack, words) => {
    expect(taken(need, [pack])).toBe(words)
  })

  it('never takes one more where the need is a whole number of packs', () => {
    for (let bags = 1; bags <= 2000; bags++) {
      const need = new Decimal(bags * 2).div(27)
      expect(Number(buying(need, tableWith([bag()])).taken.parts[0]!.units)).toBe(bags)
      expect(Number(buying(need.plus('1e-9'), tableWith([bag()])).taken.parts[0]!.units)).toBe(bags + 1)
    }
  })

  it('takes nothing, delivered for nothing, where nothing is needed', () => {
    expect(taken(0, [bulk({ least: '3', ...brought('60') })])).toBe(
      'bulk:delivered 0 units, 0.00 + 0.00 + 0.00 tax, 0 trips',
    )
  })

  it('takes a least order that isn’t a whole number of steps up to the next', () => {
    expect(taken(1, [bulk({ least: '2.25' })])).toContain(' 2.5 units, 80.00')
  })
})

describe('price breaks and delivery', () => {
  const breaks = [
    { from: '0', each: '4' },
    { from: '20', each: '3' },
  ]

  it('buys up to a break where that costs less, and says so', () => {
    const fifteen = new Decimal(30).div(27)
    const sixteen = new Decimal(32).div(27)
    // 15 at 4 are 60, as 20 at 3 are; 16 at 4 would be 64.
    expect(buying(fifteen, tableWith([bag({ prices: breaks })])).taken.parts[0]).toMatchObject({
      upToBreak: false,
    })
    const { taken } = buying(sixteen, tableWith([bag({ prices: breaks })]))
    expect([told(taken), taken.parts[0]!.upToBreak]).toEqual([
      'bag:collected 20 units, 60.00 + 0.00 + 0.00 tax, 1 trips',
      true,
    ])
  })

  it('buys up to where delivery is free where that costs less', () => {
    const pack = bulk({ ...brought('75', '8'), prices: flat('30') })
    // 5.5 at 30 and 75 are 240, as 8 at 30 are; 6 would be 255.
    expect(taken('5.5', [pack])).toBe('bulk:delivered 5.5 units, 165.00 + 75.00 + 0.00 tax, 0 trips')
    expect(taken('5.6', [pack])).toBe('bulk:delivered 8 units, 240.00 + 0.00 + 0.00 tax, 0 trips')
    expect(taken('8.1', [pack])).toBe('bulk:delivered 8.5 units, 255.00 + 0.00 + 0.00 tax, 0 trips')
  })

  it('counts the trips that buying up to a break adds', () => {
    // 16 bags are 1.185 yd³, one trip of 1.2; 20 are two, at 30 a trip: 4 saved by the break aren’t worth it.
    const carriers = [{ name: { en: 'truck', es: 'camión' }, volume: '1.2', payload: null }]
    const costs = { ...tableWith([]).costs, truckPerTrip: '30' }
    const table = tableWith([bag({ prices: breaks })], { carriers, costs })
    const { taken } = buying(new Decimal(32).div(27), table)
    expect([told(taken), taken.total.toFixed(2)]).toEqual([
      'bag:collected 16 units, 64.00 + 0.00 + 0.00 tax, 1 trips',
      '94.00',
    ])
  })

  it('puts the tax on purchases on what is bought and on its delivery, unless it is given back', () => {
    const tax = {
      name: { en: 'Sales tax', es: 'Impuesto' },
      prices: 'without',
      rate: '0',
      areas: [],
      taxed: { upkeep: {}, new: {} },
      rounded: 'bill',
      inRanges: false,
      onPurchases: '0.07',
      purchasesGivenBack: false,
    }
    const pack = bulk(brought('55'))
    // 7 % of 96 + 55 is 10.57.
    expect(taken(3, [pack], { tax })).toBe('bulk:delivered 3 units, 96.00 + 55.00 + 10.57 tax, 0 trips')
    const back = { ...tax, purchasesGivenBack: true }
    expect(taken(3, [pack], { tax: back })).toContain('+ 0.00 tax')
  })
})

describe('ways to buy', () => {
  const packs = [bag(), bulk({ collected: true, delivered: { fee: '60', freeFrom: null } })]

  it('takes the cheapest and lists the others from the cheapest up', () => {
    const { taken, others } = buying('2', tableWith(packs))
    expect([taken, ...others].map(told)).toEqual([
      'bulk:collected 2 units, 64.00 + 0.00 + 0.00 tax, 1 trips',
      'bag:collected 27 units, 108.00 + 0.00 + 0.00 tax, 1 trips',
      'bulk:delivered 2 units, 64.00 + 60.00 + 0.00 tax, 0 trips',
    ])
  })

  it('takes the pinned one whatever it costs, and shows it against the cheaper', () => {
    const { taken, others } = buying('2', tableWith(packs, {}, { pinned: 'bulk:delivered' }))
    expect([taken, ...others].map(({ parts }) => parts[0]!.way!.key)).toEqual([
      'bulk:delivered',
      'bulk:collected',
      'bag:collected',
    ])
  })

  it('compares by what fetching costs as well: its hours and the truck', () => {
    const { labor, costs } = tableWith([])
    const table = tableWith(packs, {
      labor: { ...labor, trip: { lower: '0.5', upper: '1.5' } },
      costs: { ...costs, wage: '40', burden: '0.25', overheadPerLaborHour: '5', truckPerTrip: '12' },
    })
    // A trip is 1 h at 40 × 1.25 + 5, and 12 for the truck: 67, more than 60 for delivery.
    const { taken, others } = buying('2', table)
    expect([taken, ...others].map(offer => [offer.parts[0]!.way!.key, offer.total.toFixed(2)])).toEqual([
      ['bulk:delivered', '124.00'],
      ['bulk:collected', '131.00'],
      ['bag:collected', '175.00'],
    ])
  })

  it('falls back on a cost per volume where no ways are listed, and knows nothing without one', () => {
    const table = tableWith([], {}, { materialCost: '30.125' })
    expect(buying('2', table).taken.material.toFixed(4)).toBe('60.2500')
    expect(buying('2', tableWith([]))).toBeNull()
  })
})

describe('what extras need', () => {
  const extra = (changes: Parameters<typeof extraOf>[0], need: string) =>
    told(buyForExtra(extraOf(changes), new Decimal(need), tableWith([]))!.taken)

  it('rolls lose their overlap: 3 ft wide and half a foot over the next cover 125 ft² in 50 ft', () => {
    expect(extra({ packs: [roll()] }, '250')).toBe('roll:collected 2 units, 50.00 + 0.00 + 0.00 tax, 0 trips')
    expect(extra({ packs: [roll()] }, '250.01')).toContain('roll:collected 3 units, 75.00')
  })

  it('lengths come with their stakes', () => {
    // 101 ft in lengths of 20: 6, each 18 and five stakes at 0.80.
    expect(extra({ per: 'edge', packs: [piece()] }, '101')).toBe(
      'piece:collected 6 units, 132.00 + 0.00 + 0.00 tax, 0 trips',
    )
  })

  it('takes the cheapest roll, or the pinned one', () => {
    const packs = [roll(), roll({ slug: 'wide', width: '6.5', prices: flat('40') })]
    expect(extra({ packs }, '250')).toContain('wide:collected 1 units, 40.00')
    expect(extra({ packs, pinned: 'roll:collected' }, '250')).toContain('roll:collected 2 units, 50.00')
  })
})
