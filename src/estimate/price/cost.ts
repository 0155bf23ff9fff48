import { cents, type Decimal, one, roundToCent, sumOf, zero } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity, extrasOf } from '../job/extras.ts'
import type { JobQuantities } from '../job/quantities.ts'
import { truckUnits } from '../labor/coming.ts'
import { offersTaken, type Shopping } from '../packs/shopping.ts'
import { crewOf, type Worker, wageCost } from '../table/crew.ts'
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
  laborHours: Decimal,
  table: RateTable,
): Cost | null {
  const offers = offersTaken(shopping)
  if (wageCost(table) === null || offers === null) return null
  const { costs } = table
  const pieces = {
    material: sumOf(offers.map(offer => offer.material)),
    purchaseTax: sumOf(offers.map(offer => offer.purchaseTax)),
    delivery: sumOf(offers.map(offer => offer.delivery)),
    labor: sumOf(laborCosts(laborHours, table).map(({ wages, onTop }) => wages.plus(onTop))),
    truck: shopping.trips
      .times(costs.truckPerTrip)
      .plus(costs.truckPerJob)
      .plus(truckUnits(laborHours, job.postcode, table).times(costs.truckEach)),
    dump: dumpFees(job, quantities, table),
  }
  const share = totalIn(pieces).times(costs.overheadShare)
  return addUp({ ...pieces, overhead: laborHours.times(costs.overheadPerLaborHour).plus(share) })
}

/** What the labor of a job costs by one kind of worker, in money and rounded to the cent; hours of all of them. */
export interface LaborCost extends Worker {
  hours: Decimal
  wages: Decimal
  /** What is paid on top of the wages. */
  onTop: Decimal
}

/** Labor hours as the crew shares them, each from the beginning of the job to its end. */
export function laborCosts(laborHours: Decimal, table: RateTable): LaborCost[] {
  const { size, workers } = crewOf(table)
  return workers.map(worker => {
    const hours = laborHours.times(worker.count).div(size)
    const wages = roundToCent(hours.times(worker.wage))
    const paid = roundToCent(hours.times(worker.wage).times(one.plus(worker.burden)))
    return { ...worker, hours, wages, onTop: paid.minus(wages) }
  })
}

function addUp(pieces: Record<Exclude<keyof Cost, 'total'>, Decimal>): Cost {
  const shown = Object.entries(pieces).map(([name, amount]) => [name, cents(amount)] as const)
  return { ...Object.fromEntries(shown), total: cents(totalIn(pieces)) } as Cost
}

// Of the pieces as they are shown, so that they add up.
function totalIn(pieces: Record<string, Decimal>): Decimal {
  return sumOf(Object.values(pieces).map(roundToCent))
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

/** What a price leaves: margin as a share of it, pay in money per labor hour; null where there is no price or no hour. */
export interface Earnings {
  margin: Decimal | null
  payPerLaborHour: Decimal | null
}

/** What is left of a price before tax: for each labor hour all but the wages is taken off. */
export function earningsOf(price: Decimal, cost: Cost, laborHours: Decimal): Earnings {
  const { total, labor } = cost
  const left = price.minus(total)
  return {
    margin: price.gt(0) ? left.div(price) : null,
    payPerLaborHour: laborHours.gt(0) ? left.plus(labor).div(laborHours) : null,
  }
}

/** The owner's floors that a job falls under. */
export function floorsMissed(
  { margin, payPerLaborHour }: Earnings,
  { floors }: RateTable,
): (keyof Earnings)[] {
  const under = (is: Decimal | null, floor: string | null) => is !== null && floor !== null && is.lt(floor)
  return [
    ...(under(margin, floors.margin) ? ['margin' as const] : []),
    ...(under(payPerLaborHour, floors.payPerLaborHour) ? ['payPerLaborHour' as const] : []),
  ]
}
