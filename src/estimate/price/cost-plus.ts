import { Decimal, middleOf, one, roundToCent, zero } from '../../lib/decimal.ts'
import type { FinishQuantities, JobQuantities } from '../job/quantities.ts'
import { crewHourCost } from '../labor/crew-hour.ts'
import { boughtToPrice } from '../packs/shopping.ts'
import type { RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'

/** Price = cost × (1 + markup) = cost ÷ (1 − margin): what a cost is multiplied by. */
export function plusFactor({ costPlus }: Pick<RateTable, 'costPlus'>): Decimal {
  return costPlus.by === 'markup' ? one.plus(costPlus.share) : one.div(one.minus(costPlus.share))
}

/** The price of a finish by what buying it and laying it cost, at the middle of every rate, in money. */
export function priceByCost(
  { finish, slowed }: FinishQuantities,
  quantities: JobQuantities,
  table: RateTable,
): Decimal {
  const { volumesPerBulk } = unitSystem(table.units)
  const bought = costToPrice(finish.slug, quantities, table)
  const hours = slowed.times(middleOf(table.labor.spread)).div(volumesPerBulk)
  return roundToCent(bought.plus(hours.times(crewHourCost(table) ?? zero)).times(plusFactor(table)))
}

/** What buying a finish and its part of fetching come to in a price by its cost, in money. */
export function costToPrice(slug: string, quantities: JobQuantities, table: RateTable): Decimal {
  const { buying, fetching } = boughtToPrice(slug, quantities, table)
  if (buying === null) return zero
  const { material, delivery, purchaseTax } = buying.taken
  return material.plus(delivery).plus(purchaseTax).plus(fetching)
}

/** What setting up for a job with a finish priced by cost comes to, in money: its labor hours and the truck. */
export function setUpByCost(table: RateTable): Decimal {
  const hours = middleOf(table.labor.setUp).times(crewHourCost(table) ?? zero)
  return roundToCent(new Decimal(table.costs.truckPerJob).plus(hours).times(plusFactor(table)))
}
