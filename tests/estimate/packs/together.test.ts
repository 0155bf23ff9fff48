import { describe, expect, it } from 'vitest'
import { tripsOver } from '../../../src/estimate/packs/trips.ts'
import type { Carrier, RateTable } from '../../../src/estimate/table/rate-table.ts'
import { countTrips } from './count-trips.ts'
import { bag, bulk, flat, tableWith, told } from './made.ts'
import { bought, tableOf } from './made-together.ts'

// Every price here is invented. The truck holds 2.5 yd³ and 1,800 lb, and a trip costs 30.
const truck: Carrier = { name: { en: 'truck', es: 'camión' }, volume: '2.5', payload: '1800' }
const together = (changes: Partial<RateTable['fetching']> = {}): Partial<RateTable> => {
  const { costs } = tableWith([])
  return {
    carriers: [truck],
    costs: { ...costs, truckPerTrip: '30' },
    fetching: { together: 'all', mixed: false, ...changes },
  }
}
const tellAll = ({ offers, trips }: ReturnType<typeof bought>) => [
  ...offers.map(offer => told(offer).replace(/, \d trips$/, '')),
  `${trips} trips`,
]

describe('riding together', () => {
  const five = Array(5).fill([bulk()])

  it('five small finishes are one trip, and five where each is fetched by itself', () => {
    const small = [0.4, 0.4, 0.4, 0.4, 0.4]
    // Half a yard of each: 2.5 yd³ level, and 1,200 lb at the weights given here.
    const wet = ['480', '480', '480', '480', '480']
    expect(bought(small, tableOf(five, together(), wet)).trips).toBe(1)
    expect(bought(small, tableOf(five, together({ together: 'each' }), wet)).trips).toBe(5)
    // Loose ones don't share a load: as many trips as there are.
    expect(bought(small, tableOf(five, together({ together: 'apart' }), wet)).trips).toBe(5)
  })

  it('counts the weight of all that rides, wet', () => {
    const packs = [[bulk()], [bulk()]]
    // 1 yd³ of each fits, and 700 + 1,100 lb are just the payload; one pound more is two trips.
    expect(bought([1, 1], tableOf(packs, together(), ['700', '1100'])).trips).toBe(1)
    expect(bought([1, 1], tableOf(packs, together(), ['700', '1101'])).trips).toBe(2)
  })

  it('light and heavy material fill the bed and the payload of one load', () => {
    // 2 yd³ at 300 lb and half a yd³ at 2,400 lb: 2.5 yd³ and 1,800 lb.
    expect(bought([2, 0.5], tableOf([[bulk()], [bulk()]], together(), ['300', '2400'])).trips).toBe(1)
  })

  it('bags fill the room that loose material leaves, where loose ones are kept apart', () => {
    const packs = [[bulk()], [bag()]]
    const table = tableOf(packs, together({ together: 'apart' }), [null, null])
    // 2 yd³ and 6 bags of 2 ft³ are 2.44 yd³; 7 bags are over the 2.5 yd³ that a load holds.
    expect(bought([2, 12 / 27], table).trips).toBe(1)
    expect(bought([2, 14 / 27], table).trips).toBe(2)
  })

  it('buys in bags what would need a trip of its own loose', () => {
    // Half a yd³ loose is 16 and a trip of 30 more; 7 bags at 4 ride along with the other: 28.
    const packs = [[bulk()], [bulk(), bag()]]
    expect(tellAll(bought([1, 0.5], tableOf(packs, together({ together: 'apart' }), [null, null])))).toEqual([
      'bulk:collected 1 units, 32.00 + 0.00 + 0.00 tax',
      'bag:collected 7 units, 28.00 + 0.00 + 0.00 tax',
      '1 trips',
    ])
    expect(tellAll(bought([1, 0.5], tableOf(packs, together(), [null, null])))).toEqual([
      'bulk:collected 1 units, 32.00 + 0.00 + 0.00 tax',
      'bulk:collected 0.5 units, 16.00 + 0.00 + 0.00 tax',
      '1 trips',
    ])
  })

  it('takes dearer goods that save a trip, and has one finish delivered where that frees the truck', () => {
    const delivered = bulk({ collected: true, delivered: { fee: '20', freeFrom: null } })
    // 2 yd³ of each are two loads; with one of them delivered at 20 there is one, at 30.
    const table = tableOf([[delivered], [bulk()]], together(), [null, null])
    expect(tellAll(bought([2, 2], table))).toEqual([
      'bulk:delivered 2 units, 64.00 + 20.00 + 0.00 tax',
      'bulk:collected 2 units, 64.00 + 0.00 + 0.00 tax',
      '1 trips',
    ])
  })

  it('is a trip of any size where the owner hasn’t said what one carries', () => {
    expect(bought([20, 20], tableOf([[bulk()], [bag()]], { ...together(), carriers: [] })).trips).toBe(1)
  })

  it('spreads heavy and light material over a truck and a trailer as it fits best', () => {
    const trailer: Carrier = { name: { en: 'trailer', es: 'remolque' }, volume: '2', payload: '6000' }
    const table = { ...tableWith([]), ...together(), carriers: [truck, trailer] }
    const count = (...all: [volume: number, density: string][]) =>
      countTrips(
        tripsOver(
          all.map(([, densityWet]) => ({ densityWet })),
          table,
        ),
        all.map(([volume]) => ({ loose: volume, packed: 0 })),
      )
    // 2 yd³ at 3,000 lb fill the trailer by both; 2.5 yd³ at 720 lb the truck.
    expect(count([2, '3000'], [2.5, '720'])).toBe(1)
    expect(count([2.01, '3000'], [2.5, '720'])).toBe(2)
    // In all 4.5 yd³ and 7,800 lb would hold 4.5 yd³ at 1,733 lb each, yet the truck can't carry that much of it.
    expect(count([4.5, '1733'])).toBe(2)
  })
})

describe('loose material and bags of one finish', () => {
  const prices = [
    { from: '0', each: '3.90' },
    { from: '40', each: '3.40' },
  ]
  const both = [bag({ prices }), bulk({ prices: flat('26') })]

  it('are mixed where that is cheaper: the rest of a step in bags', () => {
    // 2.1 yd³: 2.5 loose are 65; 2 loose are 52, and the rest of 2.7 ft³ two bags at 3.90.
    const table = tableOf([both], together({ mixed: true }), [null])
    expect(tellAll(bought([2.1], table))).toEqual([
      'bulk:collected 2 units and bag:collected 2 units, 59.80 + 0.00 + 0.00 tax',
      '1 trips',
    ])
    // 2.4 yd³: the rest of 10.8 ft³ would be six bags at 23.40 beside 13 for half a yard.
    expect(tellAll(bought([2.4], table))[0]).toContain('bulk:collected 2.5 units, 65.00')
    expect(tellAll(bought([2.1], tableOf([both], together(), [null])))[0]).toContain(
      'bulk:collected 2.5 units',
    )
  })

  it('keep to the fewest that are sold of each, and to the pinned way', () => {
    const least = [bag({ prices, least: '10' }), bulk({ prices: flat('26'), least: '3' })]
    // Ten bags at 39 or three yards: the rest beyond three is ten bags at least.
    expect(tellAll(bought([3.1], tableOf([least], together({ mixed: true }), [null])))[0]).toContain(
      'bulk:collected 3.5 units, 91.00',
    )
    const table = tableOf([both], together({ mixed: true }), [null])
    const [first, ...rest] = table.finishes
    const pinned = { ...table, finishes: [{ ...first!, pinned: 'bulk:collected' }, ...rest] }
    expect(tellAll(bought([2.1], pinned))[0]).toContain('bulk:collected 2.5 units, 65.00')
  })

  it('are mixed delivered and picked up, with the fee of the one and the trip of the other', () => {
    const load = bulk({ prices: flat('26'), collected: false, delivered: { fee: '20', freeFrom: null } })
    // 2.1 yd³: 2.5 delivered are 65 and 20; 2 and two bags are 52, 20, 7.80 and the trip of 30.
    const table = tableOf([[bag({ prices }), load]], together({ mixed: true }), [null])
    expect(tellAll(bought([2.1], table))).toEqual([
      'bulk:delivered 2.5 units, 65.00 + 20.00 + 0.00 tax',
      '0 trips',
    ])
    // Where the truck drives anyway, the bags ride along.
    const other = tableOf([[bag({ prices }), load], [bag()]], together({ mixed: true }), [null, null])
    expect(tellAll(bought([2.1, 0.5], other))).toEqual([
      'bulk:delivered 2 units and bag:collected 2 units, 59.80 + 20.00 + 0.00 tax',
      'bag:collected 7 units, 28.00 + 0.00 + 0.00 tax',
      '1 trips',
    ])
  })
})
