import { type Decimal, middleOf, one, zero } from '../../lib/decimal.ts'
import { type Factor, type Factors, factor } from '../job/factors.ts'
import type { FinishQuantities, JobQuantities } from '../job/quantities.ts'
import { crewHourCost } from '../labor/crew-hour.ts'
import { boughtToPrice } from '../packs/shopping.ts'
import type { RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'

/** Price = cost × (1 + markup) = cost ÷ (1 − margin): what a cost is multiplied by. */
export function plusFactor(table: Pick<RateTable, 'costPlus'>): Decimal {
  const { by, value } = put(table)
  return by === 'markup' ? value : one.div(value)
}

/** How the price of a finish comes about by what buying it and laying it cost, at the middle of every rate. */
export function priceByCost(
  { finish, slowed }: FinishQuantities,
  quantities: JobQuantities,
  table: RateTable,
): Factors {
  const { volumesPerBulk } = unitSystem(table.units)
  const bought = boughtToPrice(finish.slug, quantities, table)
  const hours = factor(slowed.times(middleOf(table.labor.spread)), 'h', { per: volumesPerBulk })
  return plus([[factor(bought, 'money', { is: 'bought' })], [hours, hourOf(table)]], table)
}

/** How the price of setting up for a job with a finish priced by cost comes about: its labor hours and the truck. */
export function setUpByCost(table: RateTable): Factors {
  const hours = factor(middleOf(table.labor.setUp), 'h')
  return plus([[factor(table.costs.truckPerJob, 'money')], [hours, hourOf(table)]], table)
}

function hourOf(table: RateTable): Factor {
  return factor(crewHourCost(table) ?? zero, 'money')
}

function plus(sum: Factor[][], table: RateTable): Factors {
  const { by, value } = put(table)
  const is = [factor(value, 'number', { is: by })]
  return by === 'markup' ? { sum, times: is, over: [] } : { sum, times: [], over: is }
}

function put({ costPlus: { by, share } }: Pick<RateTable, 'costPlus'>) {
  return { by, value: by === 'markup' ? one.plus(share) : one.minus(share) }
}
