import { cents, Decimal, roundToCent, sumOf, zero } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity, extrasOf } from '../job/extras.ts'
import type { JobQuantities } from '../job/quantities.ts'
import { wageCost } from '../labor/crew-hour.ts'
import { offersTaken, type Shopping } from '../packs/shopping.ts'
import type { RateTable } from '../table/rate-table.ts'

/** What a job costs the owner, in money, piece by piece. */
export interface Cost {
  material: string
  purchaseTax: string
  delivery: string
  labor: string
  truck: string
  dump: string
  overhead: string
  total: string
}

/** The cost of a job that takes so many labor hours; null until every material's cost and the wage are known. */
export function costOf(
  job: Job,
  quantities: JobQuantities,
  shopping: Shopping,
  crewHours: Decimal,
  table: RateTable,
): Cost | null {
  const wage = wageCost(table)
  const offers = offersTaken(shopping)
  if (wage === null || offers === null) return null
  const { costs } = table
  const { trips } = shopping
  return addUp({
    material: sumOf(offers.map(offer => offer.material)),
    purchaseTax: sumOf(offers.map(offer => offer.purchaseTax)),
    delivery: sumOf(offers.map(offer => offer.delivery)),
    labor: crewHours.times(wage),
    truck: trips.times(costs.truckPerTrip).plus(costs.truckPerJob),
    dump: dumpFees(job, quantities, table),
    overhead: crewHours.times(costs.overheadPerCrewHour),
  })
}

/** The same cost with other labor hours, as the contractor reckons them. */
export function withCrewHours(cost: Cost, crewHours: Decimal, table: RateTable): Cost {
  const { total: _, ...pieces } = cost
  return addUp({
    ...pieces,
    labor: crewHours.times(wageCost(table) ?? zero),
    overhead: crewHours.times(table.costs.overheadPerCrewHour),
  })
}

function addUp(pieces: Record<Exclude<keyof Cost, 'total'>, Decimal | string>): Cost {
  const rounded = Object.entries(pieces).map(
    ([name, amount]) => [name, roundToCent(new Decimal(amount))] as const,
  )
  const total = sumOf(rounded.map(([, amount]) => amount))
  return {
    ...Object.fromEntries(rounded.map(([name, amount]) => [name, cents(amount)])),
    total: cents(total),
  } as Cost
}

function dumpFees(job: Job, quantities: JobQuantities, table: RateTable): Decimal {
  return sumOf(
    extrasOf(job, table).map(extra => {
      if (Number(extra.dumpFee) === 0) return zero
      const { units, unitsPer } = extraQuantity(extra, job, quantities, table)
      return units.times(extra.dumpFee).div(unitsPer)
    }),
  )
}

/** What a price leaves: margin as a share of it, pay in money per crew hour; null where there is no price or no hour. */
export interface Earnings {
  margin: Decimal | null
  payPerCrewHour: Decimal | null
}

/** What is left of a price before tax: for each crew hour all but the wages is taken off. */
export function earningsOf(price: Decimal, cost: Cost, crewHours: Decimal): Earnings {
  const { total, labor } = cost
  const left = price.minus(total)
  return {
    margin: price.gt(0) ? left.div(price) : null,
    payPerCrewHour: crewHours.gt(0) ? left.plus(labor).div(crewHours) : null,
  }
}

/** The owner's floors that a job falls under. */
export function floorsMissed(
  { margin, payPerCrewHour }: Earnings,
  { floors }: RateTable,
): (keyof Earnings)[] {
  const under = (is: Decimal | null, floor: string | null) => is !== null && floor !== null && is.lt(floor)
  return [
    ...(under(margin, floors.margin) ? ['margin' as const] : []),
    ...(under(payPerCrewHour, floors.payPerCrewHour) ? ['payPerCrewHour' as const] : []),
  ]
}
