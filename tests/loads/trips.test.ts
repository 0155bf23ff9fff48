import { expect, test } from 'vitest'
import type { Finish, RateTable } from '../../src/estimate/table/rate-table.ts'
import { Decimal, sumOf } from '../../src/lib/decimal.ts'
import type { Carried } from '../../src/loads/carried.ts'
import { planTrips } from '../../src/loads/plan-trips.ts'
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

/** The trips as what each job has on them, whatever it rides on. */
const told = (carried: Carried[], table: RateTable) =>
  planTrips(carried, table)!.trips.map(({ carriers }) => {
    const all = carriers.flatMap(({ loads }) => loads)
    return [...Map.groupBy(all, ({ jobId, what }) => `${jobId} ${what}`).values()]
      .map(own => `${own[0]!.jobId}: ${sumOf(own.map(({ units }) => units)).toDecimalPlaces(3)}`)
      .join(', ')
  })

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

const onEach = (carried: Carried[], table: RateTable) =>
  planTrips(carried, table)!.trips.map(({ carriers }) =>
    carriers.map(
      ({ carrier, loads, isOver }) =>
        `${carrier.name.en}${isOver ? '!' : ''} ${loads.map(({ jobId, units }) => `${jobId}: ${units.toDecimalPlaces(3)}`).join(', ')}`,
    ),
  )

test('each trip says what rides on the truck and what on the trailer, which stays at home where the truck does', () => {
  const wood = material('shredded-wood', null)
  const trailer = { name: named('Trailer'), volume: '2', payload: null }
  const table = tableOf('all', [pickup(), trailer])
  expect(onEach([loose(1, wood, '2.5')], table)).toEqual([['Pickup 1: 2.5']])
  // The truck takes 1.5 of the first job and 1 of the second, whose other half yard goes on the trailer.
  expect(onEach([loose(1, wood, '1.5'), loose(2, wood, '1.5')], table)).toEqual([
    ['Pickup 1: 1.5, 2: 1', 'Trailer 2: 0.5'],
  ])
})

test('neither truck nor trailer gets more than it may carry, where both together could', () => {
  // 1 yd³ of gravel of 2,600 lb and 2 yd³ of mulch of 500 lb are 3,600 lb. The trailer takes gravel of 2,600 lb, the truck
  // the mulch of 1,000 lb; the other way round the truck would carry 2,600 lb with a payload of 1,500.
  const [stone, wood] = [material('stone', '2600'), material('shredded-wood', '500')]
  const trailer = { name: named('Trailer'), volume: '2', payload: '2700' }
  const table = tableOf('all', [pickup('1500'), trailer])
  expect(onEach([loose(1, stone, '1', '1'), loose(2, wood, '2')], table)).toEqual([
    ['Pickup 2: 2', 'Trailer 1: 1'],
  ])
})

test('what fits only where a scoop is parted goes on a trip more', () => {
  // Two carriers of 1.5 yd³ hold 3 yd³, but of scoops of 1 yd³ each takes one.
  const wood = material('shredded-wood', null)
  const carriers = ['Truck', 'Trailer'].map(name => ({ name: named(name), volume: '1.5', payload: null }))
  expect(onEach([loose(1, wood, '3', '1')], tableOf('all', carriers))).toEqual([
    ['Truck 1: 1', 'Trailer 1: 1'],
    ['Truck 1: 1'],
  ])
})

test('where half of each is what both can carry, both get half', () => {
  // 3 yd³ of 500 lb and 3 yd³ of 1,500 lb, on two carriers of 3 yd³ and 3,000 lb: only 1.5 of each on each do.
  const [light, heavy] = [material('shredded-wood', '500'), material('compost', '1500')]
  const carriers = ['Truck', 'Trailer'].map(name => ({ name: named(name), volume: '3', payload: '3000' }))
  expect(onEach([loose(1, light, '3'), loose(2, heavy, '3')], tableOf('all', carriers))).toEqual([
    ['Truck 1: 1.5, 2: 1.5', 'Trailer 1: 1.5, 2: 1.5'],
  ])
})

test('a scoop that is too heavy for anything says so', () => {
  const stone = material('stone', '2600')
  expect(onEach([loose(1, stone, '1', '1')], tableOf('all', [pickup('1000')]))[0]![0]).toMatch(/^Pickup! /)
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
      const all = trips.flatMap(({ carriers }) =>
        carriers.flatMap(({ loads }) => loads.map(({ units }) => units)),
      )
      expect(sumOf(all).eq(carried.units)).toBe(true)
    }
  expect(planTrips([loose(1, stone, '2')], tableOf('all', []))).toBeNull()
})
