import { Decimal, middleOf, one, roundToCent, sumOf, zero } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { allowanceOf, type FinishQuantities, type JobQuantities } from '../job/quantities.ts'
import { driveTo, truckUnits } from '../labor/coming.ts'
import { crewHourCost } from '../labor/crew-hour.ts'
import { hoursOf, tasksOf } from '../labor/tasks.ts'
import { buyFinish } from '../packs/offers.ts'
import { shoppingFor, tripsOf } from '../packs/shopping.ts'
import type { RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'

/** Price = cost × (1 + markup) = cost ÷ (1 − margin): what a cost is multiplied by. */
export function plusFactor({ costPlus }: Pick<RateTable, 'costPlus'>): Decimal {
  return costPlus.by === 'markup' ? one.plus(costPlus.share) : one.div(one.minus(costPlus.share))
}

/** The same, and before it the overhead that is a share of all other costs. */
export function priceFactor(table: Pick<RateTable, 'costPlus' | 'costs'>): Decimal {
  return plusFactor(table).times(one.plus(table.costs.overheadShare))
}

/** The price of a finish by what buying it and laying it cost, at the middle of every rate, in money. */
export function priceByCost(quantities: FinishQuantities, table: RateTable): Decimal {
  const { finish, inPlace } = quantities
  const { volumesPerBulk } = unitSystem(table.units)
  const need = inPlace.times(one.plus(allowanceOf(finish, table))).div(volumesPerBulk)
  const bought = buyFinish(finish, need, table)?.taken.total ?? zero
  const hours = layingHours(quantities, table)
  return roundToCent(bought.plus(hours.times(crewHourCost(table) ?? zero)).times(priceFactor(table)))
}

/**
 * What a job with a finish priced by cost comes to before its first bed, in money: setting up, the truck, the drive, and
 * what is missing to the least hours.
 */
export function setUpByCost(job: Job, quantities: JobQuantities, table: RateTable): Decimal {
  const { costs, labor } = table
  const coming = comingOf(job, quantities, table)
  const hours = middleOf(labor.setUp)
    .plus(coming.hours)
    .times(crewHourCost(table) ?? zero)
  const truck = coming.truck.times(costs.truckEach).plus(costs.truckPerJob)
  return roundToCent(truck.plus(hours).times(priceFactor(table)))
}

/** Whether what a job costs besides its beds depends on how long it takes. */
export function dependsOnHours({ postcode }: Job, table: RateTable): boolean {
  const { labor, costs } = table
  const byDay = costs.truckBy !== 'hour' && Number(costs.truckEach) > 0
  return byDay || Number(labor.least) > 0 || driveTo(postcode, table).hours.gt(0)
}

// Only hours that are charged here lessen what is missing to the least: else an extra with a rate of its own could lower
// the price. Nor do trips, of which there may be fewer for more. The truck by the hour is in every labor hour already.
function comingOf(job: Job, quantities: JobQuantities, table: RateTable) {
  if (!dependsOnHours(job, table)) return { hours: zero, truck: zero }
  const tasks = tasksOf(job, quantities, tripsOf(shoppingFor(job, quantities, table)), table)
  const drive = hoursOf(tasks.filter(({ task }) => task === 'drive'))
  const byCost = quantities.finishes.filter(({ finish }) => finish.pricedBy === 'cost')
  const laid = sumOf(byCost.map(finish => layingHours(finish, table)))
  const charged = laid.plus(middleOf(table.labor.setUp)).plus(drive)
  const missing = Decimal.max(zero, new Decimal(table.labor.least).minus(charged))
  const truck = table.costs.truckBy === 'hour' ? zero : truckUnits(hoursOf(tasks), job.postcode, table)
  return { hours: drive.plus(missing), truck }
}

function layingHours({ slowed }: FinishQuantities, table: RateTable): Decimal {
  return slowed.times(middleOf(table.labor.spread)).div(unitSystem(table.units).volumesPerBulk)
}
