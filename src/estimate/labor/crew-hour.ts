import { Decimal, one } from '../../lib/decimal.ts'
import type { RateTable } from '../table/rate-table.ts'

/** What a crew hour costs: the wage with its burden, and the overhead; null while the wage isn't known. */
export function crewHourCost(table: RateTable): Decimal | null {
  const wage = wageCost(table)
  return wage?.plus(table.costs.overheadPerCrewHour) ?? null
}

/** The wage of a crew hour with what the employer pays on top; null while it isn't known. */
export function wageCost({ costs }: RateTable): Decimal | null {
  return costs.crewHour === null ? null : new Decimal(costs.crewHour).times(one.plus(costs.burden))
}
