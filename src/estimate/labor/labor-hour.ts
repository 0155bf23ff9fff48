import { Decimal } from '../../lib/decimal.ts'
import { crewOf, wageCost } from '../table/crew.ts'
import type { RateTable } from '../table/rate-table.ts'

/**
 * What a labor hour costs: the wage with its burden, the overhead by the hour, and the truck where it is reckoned by the
 * hour; null while the wage isn't known.
 */
export function laborHourCost(table: RateTable): Decimal | null {
  const last = known.get(table)
  if (last !== undefined) return last
  const cost = wageCost(table)?.plus(table.costs.overheadPerLaborHour).plus(truckPerHour(table)) ?? null
  known.set(table, cost)
  return cost
}

// Every line of a price asks for it.
const known = new WeakMap<RateTable, Decimal | null>()

/** The truck's part of a labor hour: it stands there as long as the crew does. */
function truckPerHour(table: RateTable): Decimal {
  const { truckBy, truckEach } = table.costs
  return truckBy === 'hour' ? new Decimal(truckEach).div(crewOf(table).size) : new Decimal(0)
}
