import { tripsOver } from '../estimate/packs/trips.ts'
import type { Finish, RateTable } from '../estimate/table/rate-table.ts'
import { Decimal, sumOf, zero } from '../lib/decimal.ts'

/**
 * What a job takes along of a material, in one kind of pack or loose: so many units of each so much contents in yd³|m³.
 * scoop is what the yard's loader puts on at a time, in units of what is loose.
 */
export interface Carried {
  jobId: number
  finish: Finish
  /** Which of what is carried it is, for whoever shows it. */
  what: number
  units: Decimal
  contents: Decimal
  isLoose: boolean
  scoop: Decimal
}

/** One trip: what of it is for which job, its volume in yd³|m³, and its wet weight in lb|kg, null where one isn't known. */
export interface Trip {
  loads: { jobId: number; what: number; units: Decimal }[]
  volume: Decimal
  weight: Decimal | null
}

/** The trips, and how many there would be by volume alone; null where the rates list nothing that carries. */
export interface TripPlan {
  trips: Trip[]
  byVolume: number
}

const HAIR = 1e-9

/**
 * Puts everything that is fetched onto trips, job by job: as full as volume and wet weight allow over truck and trailer, loose
 * materials in whole scoops, packs whole; with what may ride together as the rates say.
 */
export function planTrips(carried: Carried[], table: RateTable): TripPlan | null {
  if (table.carriers.length === 0) return null
  const trips = fill(carried, table)
  const dry = carried.map(one => ({ ...one, finish: { ...one.finish, densityWet: null } }))
  return { trips: trips.map(trip => viewTrip(trip)), byVolume: fill(dry, table).length }
}

interface Load {
  one: Carried
  units: Decimal
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

function isSameLoose(one: Carried, other: Carried): boolean {
  return (
    one.isLoose && other.isLoose && one.finish.slug === other.finish.slug && one.contents.eq(other.contents)
  )
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

function viewTrip(loads: Load[]): Trip {
  const volumes = loads.map(({ one, units }) => units.times(one.contents))
  const isKnown = loads.every(({ one }) => one.finish.densityWet !== null)
  return {
    loads: loads.map(({ one, units }) => ({ jobId: one.jobId, what: one.what, units })),
    volume: sumOf(volumes),
    weight: isKnown
      ? sumOf(loads.map(({ one }, index) => volumes[index]!.times(one.finish.densityWet!)))
      : null,
  }
}
