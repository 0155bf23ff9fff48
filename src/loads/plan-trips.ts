import { tripsOver } from '../estimate/packs/trips.ts'
import type { Carrier, RateTable } from '../estimate/table/rate-table.ts'
import { Decimal, sumOf, zero } from '../lib/decimal.ts'
import { type Carried, isSameLoose } from './carried.ts'
import { type Load, type OnCarrier, putOnCarriers, sizeOf } from './on-carriers.ts'

/** One trip, in all and by what it rides on; `isOver` says that this is more than may be carried. */
export interface Trip extends Size {
  carriers: (Size & { carrier: Carrier; loads: TripLoad[]; isOver: boolean })[]
}

/** In yd³|m³, and in lb|kg when wet, null where one isn't known. */
interface Size {
  volume: Decimal
  weight: Decimal | null
}

/** What of it is for which job. */
interface TripLoad {
  jobId: number
  what: number
  units: Decimal
}

/** The trips, and how many there would be by volume alone; null where the rates list nothing that carries. */
export interface TripPlan {
  trips: Trip[]
  byVolume: number
}

const HAIR = 1e-9

/**
 * Puts everything that is fetched onto trips, job by job: as full as volume and wet weight allow over truck and trailer, loose
 * materials in whole scoops, packs whole; with what may ride together as the rates say. What finds no room on one of them
 * in whole scoops and packs goes on a trip more.
 */
export function planTrips(carried: Carried[], table: RateTable): TripPlan | null {
  if (table.carriers.length === 0) return null
  const dry = carried.map(one => ({ ...one, finish: { ...one.finish, densityWet: null } }))
  return { trips: onCarriers(carried, table).map(viewTrip), byVolume: onCarriers(dry, table).length }
}

function onCarriers(carried: Carried[], table: RateTable): OnCarrier[][] {
  const trips: OnCarrier[][] = []
  for (let left = carried; left.length > 0; ) {
    const over: Load[] = []
    for (const loads of fill(left, table)) {
      const placed = putOnCarriers(loads, table.carriers)
      // What is too heavy or too large for any of them goes on the first as it is.
      if (placed.on.length === 0) trips.push([{ carrier: table.carriers[0]!, loads }])
      else {
        trips.push(placed.on)
        over.push(...placed.over)
      }
    }
    left = over.map(({ one, units }) => ({ ...one, units }))
  }
  return trips
}

function fill(carried: Carried[], table: RateTable): Load[][] {
  const finishes = [...new Map(carried.map(({ finish }) => [finish.slug, finish])).values()]
  const together = { ...table.fetching, together: 'all' } as const
  const { limits, usesOf } = tripsOver(finishes, { ...table, fetching: together })
  // How much of each limit a unit takes: what is carried is compared in floats, as purchases are.
  const perUnit = (one: Carried) => {
    const at = finishes.findIndex(({ slug }) => slug === one.finish.slug)
    return usesOf(at, { loose: one.contents.toNumber(), packed: 0 })
  }
  const trips: Load[][] = []
  for (const one of inOrder(carried, table)) {
    const uses = perUnit(one)
    let left = one.units
    for (const trip of trips.filter(trip => rideTogether(trip, one, table))) {
      const used = usedBy(trip, one, perUnit, limits)
      const room = roomFor(one, uses, used)
      const units = Decimal.min(left, Decimal.max(0, room.minus(looseOf(trip, one))))
      if (units.gt(0)) trip.push({ one, units })
      left = left.minus(Decimal.max(0, units))
    }
    while (left.gt(0)) {
      const room = roomFor(one, uses, new Float64Array(limits))
      // What is too heavy or too large for any trip goes on one of its own.
      const units = Decimal.min(left, room.gt(0) ? room : one.isLoose ? roomInParts(uses) : 1)
      trips.push([{ one, units }])
      left = left.minus(units)
    }
  }
  return trips
}

/** Loose before packed where two loose materials never share a trip: bags and bales ride where room is left. */
function inOrder(carried: Carried[], { fetching }: RateTable): Carried[] {
  if (fetching.together !== 'apart') return carried
  return [...carried.filter(({ isLoose }) => isLoose), ...carried.filter(({ isLoose }) => !isLoose)]
}

function rideTogether(trip: Load[], { finish, isLoose }: Carried, { fetching }: RateTable): boolean {
  if (fetching.together === 'all') return true
  if (fetching.together === 'each') return trip.every(({ one }) => one.finish.slug === finish.slug)
  return !isLoose || trip.every(({ one }) => !one.isLoose || one.finish.slug === finish.slug)
}

/** What a trip uses of each limit besides what is loose of the same material, which a scoop may hold with the next. */
function usedBy(
  trip: Load[],
  next: Carried,
  perUnit: (one: Carried) => Float64Array,
  limits: number,
): Float64Array {
  const used = new Float64Array(limits)
  const counted = new Map<string, Load>()
  for (const load of trip) {
    if (isSameLoose(load.one, next)) continue
    const key = load.one.isLoose ? `${load.one.finish.slug} ${load.one.contents}` : String(counted.size)
    const units = (counted.get(key)?.units ?? zero).plus(load.units)
    counted.set(key, { one: load.one, units })
  }
  for (const { one, units } of counted.values()) {
    const whole = one.isLoose ? units.div(one.scoop).toDecimalPlaces(6).ceil().times(one.scoop) : units
    perUnit(one).forEach((use, limit) => {
      used[limit]! += use * whole.toNumber()
    })
  }
  return used
}

function looseOf(trip: Load[], next: Carried): Decimal {
  return sumOf(trip.filter(({ one }) => isSameLoose(one, next)).map(({ units }) => units))
}

/** How many units find room beside what is used: whole packs, or whole scoops of what is loose. */
function roomFor({ isLoose, scoop }: Carried, uses: Float64Array, used: Float64Array): Decimal {
  const most = Math.min(
    ...uses.map((use, limit) => (use > 0 ? (1 - used[limit]!) / use : Number.POSITIVE_INFINITY)),
  )
  const units = new Decimal(Math.max(0, most + HAIR))
  return isLoose ? units.div(scoop).floor().times(scoop) : units.floor()
}

function roomInParts(uses: Float64Array): Decimal {
  return new Decimal(Math.min(...uses.filter(use => use > 0).map(use => 1 / use))).toDecimalPlaces(3)
}

function viewTrip(on: OnCarrier[]): Trip {
  return {
    ...sizeOf(on.flatMap(({ loads }) => loads)),
    carriers: on.map(({ carrier, loads }) => {
      const { volume, weight } = sizeOf(loads)
      const isTooHeavy = carrier.payload !== null && weight?.gt(new Decimal(carrier.payload).plus(HAIR))
      const isOver = isTooHeavy === true || volume.gt(new Decimal(carrier.volume).plus(HAIR))
      return {
        carrier,
        loads: loads.map(({ one, units }) => ({ jobId: one.jobId, what: one.what, units })),
        volume,
        weight,
        isOver,
      }
    }),
  }
}
