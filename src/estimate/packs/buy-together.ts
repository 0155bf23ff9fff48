import { Decimal, figureOf, sumOf, zero } from '../../lib/decimal.ts'
import { contentsOf, waysOf } from '../table/pack.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { asCosted } from '../table/sold.ts'
import { unitSystem } from '../units/units.ts'
import { buyersOf } from './buyers.ts'
import type { Choice } from './found.ts'
import { loadWeights } from './loads.ts'
import { tripCost } from './money.ts'
import { atCost, type Buying, cheapestFirst, leastOf, type Offer, offerOf, type Part } from './offers.ts'
import { bought, purchasesFor } from './purchase.ts'
import { type Collected, type Trips, tripsUsed, usedBy } from './trips.ts'

/** So much of a finish, in yd³|m³ to order. */
export interface Need {
  finish: Finish
  need: Decimal
}

/**
 * A finish bought: buying is null while nothing is known of its cost; fetching is its part of what all trips cost, by how
 * much of a load of its own it takes.
 */
export interface FinishBought extends Need {
  buying: Buying | null
  fetching: Decimal
}

/** What a job's finishes are bought in, and the trips that fetch all of it, at tripCost in money each. */
export interface Bought {
  finishes: FinishBought[]
  trips: Decimal
  tripCost: Decimal
}

// Beyond it the last digits of a part are those of the division: a third of 87 is 29.
const PLACES = 20

/** Buys all finishes together at what costs least with the trips, each in its cheapest ways or in the one pinned. */
export function buyTogether(needs: Need[], table: RateTable): Bought {
  const known = needs.filter(({ finish }) => finish.packs.length > 0)
  const finishes = known.map(({ finish }) => finish)
  const cost = tripCost(table)
  const each = cost.toNumber()
  const buyers = buyersOf(finishes, table, { least: each, most: each, inCents: true })
  const options = known.map(({ need }, index) => buyers.options[index]!(need.toNumber()))
  const found = buyers.find(options, each)
  const loads = new Loads(buyers.trips, [...found.picks])
  const fetching = new Decimal(found.trips).times(cost)
  const ride = table.fetching.together !== 'each' && !fetching.isZero()
  const shares = ride ? known.map(({ finish }, index) => shareOf(finish, found.picks[index]!, table)) : []
  const whole = sumOf(shares)
  const perLoad = whole.isZero() ? zero : fetching.div(whole)
  return {
    finishes: needs.map(({ finish, need }) => {
      const index = finishes.indexOf(finish)
      if (index < 0) {
        const buying = onlyAtCost(need, finish, table)
        return { finish, need, buying, fetching: zero }
      }
      const buying = offersFor(finish, need, index, loads, cost, table)
      const share = shares[index] ?? zero
      const part = share.isZero() ? zero : perLoad.times(share).toDecimalPlaces(PLACES)
      return {
        finish,
        need,
        buying,
        fetching: table.fetching.together === 'each' ? buying.taken.fetching : part,
      }
    }),
    trips: new Decimal(found.trips),
    tripCost: cost,
  }
}

function onlyAtCost(need: Decimal, finish: Finish, table: RateTable): Buying | null {
  if (finish.materialCost === null) return null
  const used = atCost(asCosted(need, finish, table), finish.materialCost, need)
  return { taken: offerOf([used], zero, zero, table), others: [] }
}

/** What is collected of all finishes as they are bought, and what else one of them may be bought in. */
class Loads {
  readonly picks: Choice[]
  readonly trips: Trips
  private readonly used: Float64Array

  constructor(trips: Trips, picks: Choice[]) {
    this.trips = trips
    this.picks = picks
    this.used = usedBy(trips, picks)
  }

  /** How many trips so much of a finish adds to those for all others. */
  added(index: number, collected: Collected): Decimal {
    const { limits } = this.trips
    const pick = this.picks[index]!
    const others = this.used.map((used, limit) => used - pick.uses[limit]!)
    const uses = collected === pick ? pick.uses : this.trips.usesOf(index, collected)
    const all = others.map((used, limit) => used + uses[limit]!)
    return new Decimal(tripsUsed(all, 0, limits) - tripsUsed(others, 0, limits))
  }
}

function offersFor(
  finish: Finish,
  need: Decimal,
  index: number,
  loads: Loads,
  cost: Decimal,
  table: RateTable,
): Buying {
  const system = unitSystem(table.units)
  const pick = loads.picks[index]!
  const parts = pick.parts.map(({ way, steps }, at): Part => {
    const units = new Decimal(steps).times(figureOf(way.way.pack.step))
    const others = pick.parts.reduce(
      (sum, part, index) => (index === at ? sum : sum + part.way.contents * part.steps),
      0,
    )
    const fewerDo = steps > way.least && others + (steps - 1) * way.contents >= need.toNumber() - way.slack
    return { ...bought(way.way, units, contentsOf(way.way.pack, system), fewerDo), way: way.way }
  })
  const alone = () =>
    waysOf(finish.packs).map((way): Offer => {
      const loose = way.pack.kind === 'bulk' || way.pack.kind === 'weighed'
      return leastOf(
        purchasesFor(way, need, system).map(purchase => {
          const collected = way.delivered ? 0 : purchase.contents.toNumber()
          const trips = loads.added(index, { loose: loose ? collected : 0, packed: loose ? 0 : collected })
          return offerOf([{ ...purchase, way }], trips, cost, table)
        }),
      )
    })
  // Of nothing there is nothing to choose.
  const taken =
    parts.length === 0 ? nothingOf(finish, alone()) : offerOf(parts, loads.added(index, pick), cost, table)
  const [first, second] = taken.parts
  let others: Offer[] | undefined
  return {
    taken,
    // Asked for only where they are shown.
    get others() {
      others ??= cheapestFirst(
        alone().filter(({ parts }) => second || parts[0]!.way!.key !== first!.way!.key),
      )
      return others
    },
  }
}

function nothingOf({ pinned }: Finish, offers: Offer[]): Offer {
  return offers.find(({ parts }) => parts[0]!.way!.key === pinned) ?? leastOf(offers)
}

/** How much of a load what is collected of a finish takes, beside the others. */
function shareOf({ densityWet }: Finish, { loose, packed }: Choice, { carriers }: RateTable): Decimal {
  if (loose + packed === 0) return zero
  return loadWeights(carriers)(densityWet).times(new Decimal(loose).plus(packed))
}
