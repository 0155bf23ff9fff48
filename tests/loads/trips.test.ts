import { expect, test } from 'vitest'
import type { Finish, RateTable } from '../../src/estimate/table/rate-table.ts'
import { Decimal, sumOf } from '../../src/lib/decimal.ts'
import { type Carried, planTrips } from '../../src/loads/plan-trips.ts'
import { testTable } from '../estimate/jobs.ts'

const named = (en: string) => ({ en, es: en })
/** A full-size pickup holds 2.5 yd³ level: UF/IFAS Miami-Dade. What it may carry is invented. */
const pickup = (payload: string | null = null) => ({ name: named('Pickup'), volume: '2.5', payload })

function tableOf(together: RateTable['fetching']['together'], carriers: RateTable['carriers']): RateTable {
  return { ...testTable(), carriers, fetching: { together, mixed: true } }
}

function material(slug: string, densityWet: string | null): Finish {
  return { ...testTable().finishes.find(one => one.slug === slug)!, densityWet }
}

function loose(jobId: number, finish: Finish, units: string, scoop = '0.5'): Carried {
  const figures = { units: new Decimal(units), contents: new Decimal(1), scoop: new Decimal(scoop) }
  return { jobId, finish, what: 0, isLoose: true, ...figures }
}

function bags(jobId: number, finish: Finish, units: string): Carried {
  const contents = new Decimal(2).div(27)
  return { ...loose(jobId, finish, units), contents, isLoose: false, what: 1 }
}

const told = (carried: Carried[], table: RateTable) =>
  planTrips(carried, table)!.trips.map(({ loads }) =>
    loads.map(({ jobId, units }) => `${jobId}: ${units.toDecimalPlaces(3)}`).join(', '),
  )

test('loose material fills the bed level, job after job', () => {
  const wood = material('shredded-wood', null)
  const table = tableOf('all', [pickup()])
  expect(told([loose(1, wood, '1.5'), loose(2, wood, '3')], table)).toEqual(['1: 1.5, 2: 1', '2: 2'])
})

test('what the yard’s scoop can’t put on level isn’t counted on', () => {
  const wood = material('shredded-wood', null)
  // Of scoops of 1 yd³ a bed of 2.5 takes two: 5 yd³ are three trips, where by volume they are two.
  expect(told([loose(1, wood, '5', '1')], tableOf('all', [pickup()]))).toEqual(['1: 2', '1: 2', '1: 1'])
  // Two jobs share a scoop: 1.5 and 0.5 are two scoops.
  expect(told([loose(1, wood, '1.5', '1'), loose(2, wood, '0.5', '1')], tableOf('all', [pickup()]))).toEqual([
    '1: 1.5, 2: 0.5',
  ])
})

test('what is heavy when wet makes more trips than its volume, and each is within what may be carried', () => {
  // Compost of 1,350 lb a yd³ (Massachusetts): of a payload of 1,500 lb one yd³ in half scoops.
  const compost = material('compost', '1350')
  const plan = planTrips([loose(1, compost, '3')], tableOf('all', [pickup('1500')]))!
  expect(plan.trips.map(({ volume, weight }) => [volume.toFixed(), weight?.toFixed()])).toEqual([
    ['1', '1350'],
    ['1', '1350'],
    ['1', '1350'],
  ])
  expect(plan.byVolume).toBe(2)
})

test('truck and trailer carry together, and bags ride in the room that is left, whole', () => {
  const wood = material('shredded-wood', null)
  const straw = material('pine-straw', null)
  const trailer = { name: named('Trailer'), volume: '2', payload: null }
  // 4.5 yd³ in all: beside 4 yd³ loose there is room for 0.5 yd³, which 6 bags of 2 ft³ fit into and 7 don't.
  const table = tableOf('all', [pickup(), trailer])
  expect(told([loose(1, wood, '4'), bags(2, straw, '10')], table)).toEqual(['1: 4, 2: 6', '2: 4'])
})

test('two loose materials ride together only where the rates say so', () => {
  const [wood, stone] = [material('shredded-wood', null), material('stone', null)]
  const carried = [loose(1, wood, '1'), loose(1, stone, '1'), bags(1, wood, '6')]
  expect(told(carried, tableOf('all', [pickup()]))).toHaveLength(1)
  expect(told(carried, tableOf('apart', [pickup()]))).toEqual(['1: 1, 1: 6', '1: 1'])
  expect(told(carried, tableOf('each', [pickup()]))).toEqual(['1: 1, 1: 6', '1: 1'])
})

test('nothing gets lost, whatever is carried: what is too large for any trip goes on one of its own', () => {
  const stone = material('stone', '2600')
  // A scoop of 1 yd³ of wet gravel is over the payload alone, as is one bag of 2 ft³ with a payload of 100 lb.
  for (const payload of ['1000', '100'])
    for (const carried of [loose(1, stone, '2.2', '1'), bags(1, stone, '3')]) {
      const { trips } = planTrips([carried], tableOf('all', [pickup(payload)]))!
      const all = trips.flatMap(({ loads }) => loads.map(({ units }) => units))
      expect(sumOf(all).eq(carried.units)).toBe(true)
    }
  expect(planTrips([loose(1, stone, '2')], tableOf('all', []))).toBeNull()
})
