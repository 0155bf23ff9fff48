import type { Carrier, Finish, RateTable } from '../table/rate-table.ts'

/** What of a purchase is collected, in yd³|m³: loose, and in bags or bales. */
export interface Collected {
  loose: number
  packed: number
}

/**
 * Counts the trips that fetch what is collected of several finishes. What a purchase collects uses up some of each of a few
 * limits, told in trips: all of them together take as many whole trips as the limit does of which most is used.
 */
export interface Trips {
  /** How many finishes ride, in the order in which they were given, and how many limits there are. */
  finishes: number
  limits: number
  /** Of how many of these, the first ones, one is always used most. */
  reached: number
  /** Whether the first limit is of trips that each finish makes by itself, and so of whole ones. */
  firstIsWhole: boolean
  /** How much of each limit it uses up to collect this of a finish. */
  usesOf(finish: number, collected: Collected): Float64Array
  /** How many trips more it takes at most, whatever else is fetched, to collect `this much` of a finish and not `that`. */
  most(finish: number, thisMuch: Collected, that: Collected): number
}

// A quotient of floats this little above a whole number is that number.
export const HAIR = 1e-9
// What any of a finish uses up where loads have no limit: all that there is rides in one.
const SOME = 1e-6

// What floats leave of nothing.
const NOTHING = 1e-13

/** The whole trips of so many that needn't be whole; however little is fetched, it is one. */
export function wholeTrips(loads: number): number {
  return loads <= NOTHING ? 0 : Math.max(1, Math.ceil(loads - HAIR))
}

/** The whole trips of what is used up of so many limits, the first of which stands at `from`. */
export function tripsUsed(used: Float64Array, from: number, limits: number): number {
  let most = 0
  for (let limit = from; limit < from + limits; limit++) if (used[limit]! > most) most = used[limit]!
  return wholeTrips(most)
}

/** How much of each limit all of this uses up, one after another of the finishes. */
export function usedBy(trips: Trips, all: Collected[]): Float64Array {
  const used = new Float64Array(trips.limits)
  all.forEach((collected, finish) => {
    trips.usesOf(finish, collected).forEach((use, limit) => {
      used[limit]! += use
    })
  })
  return used
}

/**
 * Counts as the table says that finishes ride: each by itself, loose ones apart, or all together. With `between`, half way
 * between two limits is one too where that says more: never reached before both, but whoever puts bounds to what is best comes closer.
 */
export function tripsOver(finishes: Pick<Finish, 'densityWet'>[], table: RateTable, between = false): Trips {
  const densities = finishes.map(({ densityWet }) => Number(densityWet ?? 0))
  const limits = loadLimits(densities, table.carriers)
  const shares = densities.map((_, index) => Math.max(...limits.map(limit => limit[index]!)))
  const alone = (at: number, volume: number) =>
    volume > 0 ? Math.max(1, Math.ceil(volume * shares[at]! - HAIR)) : 0
  const usesAt = (used: (limit: number[]) => number, volume: number) =>
    table.carriers.length > 0 ? limits.map(limit => used(limit)) : [volume > 0 ? SOME : 0]
  switch (table.fetching.together) {
    case 'each':
      return {
        finishes: finishes.length,
        limits: 1,
        reached: 1,
        firstIsWhole: true,
        usesOf: (at, { loose, packed }) => Float64Array.of(alone(at, loose + packed)),
        most: (at, one, other) => alone(at, one.loose + one.packed) - alone(at, other.loose + other.packed),
      }
    case 'all':
      return {
        finishes: finishes.length,
        limits: limits.length,
        reached: limits.length,
        firstIsWhole: false,
        usesOf: (at, { loose, packed }) => {
          const volume = loose + packed
          return Float64Array.from(usesAt(limit => limit[at]! * volume, volume))
        },
        most: (at, one, other) => {
          const more = one.loose + one.packed - other.loose - other.packed
          if (other.loose + other.packed === 0) return alone(at, more)
          return Math.ceil(Math.max(0, more * shares[at]! - HAIR))
        },
      }
    case 'apart':
      return {
        finishes: finishes.length,
        limits: 1 + limits.length * (between ? 2 : 1),
        reached: 1 + limits.length,
        firstIsWhole: true,
        // Loose finishes have trips of their own. Bags and bales ride where there is room, each finish by its share of a load.
        usesOf: (at, { loose, packed }) => {
          const own = alone(at, loose)
          const uses = usesAt(limit => shares[at]! * loose + limit[at]! * packed, packed)
          return Float64Array.of(own, ...uses, ...(between ? uses.map(use => (own + use) / 2) : []))
        },
        most: (at, one, other) => {
          if (other.loose + other.packed === 0) return alone(at, one.loose) + alone(at, one.packed)
          const own = alone(at, one.loose) - alone(at, other.loose)
          const more = one.loose - other.loose + Math.max(0, one.packed - other.packed)
          return Math.max(0, own, Math.ceil(more * shares[at]! - HAIR))
        },
      }
    default:
      return table.fetching.together satisfies never
  }
}

/**
 * The limits of a load, each as how much of it a yd³|m³ of every finish uses up. What is fetched is divided at will, as so
 * many bags or so much of a heap are: then loads do, and no fewer, if for the density d of each finish
 * Σ volume × min(density, d) comes to no more than the loads' Σ min(d × bed, payload) over their carriers, and Σ volume to
 * no more than their beds (by the duality of linear programs: these are the corners of the dual). With one carrier these
 * are its volume and its payload.
 */
function loadLimits(densities: number[], carriers: Carrier[]): number[][] {
  const beds = carriers.map(({ volume, payload }) => ({
    volume: Number(volume),
    payload: payload === null ? Number.POSITIVE_INFINITY : Number(payload),
  }))
  if (beds.length === 0) return [densities.map(() => 0)]
  const whole = beds.reduce((sum, { volume }) => sum + volume, 0)
  const kinks = [...new Set(densities)].filter(density => density > 0)
  const limits = [
    densities.map(() => 1 / whole),
    ...kinks.map(kink => {
      const room = beds.reduce((sum, { volume, payload }) => sum + Math.min(kink * volume, payload), 0)
      return densities.map(density => Math.min(density, kink) / room)
    }),
  ]
  // A limit that another one reaches first, whatever is fetched, needn't be looked at.
  return limits.filter(
    (limit, index) =>
      !limits.some(
        (other, at) =>
          at !== index &&
          other.every((use, finish) => use >= limit[finish]!) &&
          (at < index || other.some((use, finish) => use > limit[finish]!)),
      ),
  )
}
