import { Decimal, one } from '../../lib/decimal.ts'
import { wageCost } from '../labor/crew-hour.ts'
import { type Cost, earningsOf } from '../price/cost.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { Figures } from './figures.ts'

/** How the cost of a job comes about, and what a price, before tax, leaves of it. */
export function costSteps(
  cost: Cost | null,
  { net, crewHours, trips }: { net: string; crewHours: Decimal; trips: Decimal },
  table: RateTable,
  f: Figures,
): string[] {
  if (cost === null) return ['The cost isn’t known yet. The wage or the cost of a material is missing.']
  const { margin, payPerCrewHour } = earningsOf(new Decimal(net), cost, crewHours)
  return [
    ...pieces(cost, crewHours, trips, table, f),
    `Cost: ${f.money(cost.total)}`,
    ...(margin
      ? [`Margin: (${f.money(net)} − ${f.money(cost.total)}) ÷ ${f.money(net)} = ${f.share(margin)}`]
      : []),
    ...(payPerCrewHour
      ? [
          `Pay: (${f.money(net)} − ${f.money(cost.total)} + ${f.money(cost.labor)} of wages) ÷ ${f.hours(crewHours)} = ${f.money(payPerCrewHour.toDecimalPlaces(2))} per labor hour`,
        ]
      : []),
  ]
}

function pieces(cost: Cost, crewHours: Decimal, trips: Decimal, table: RateTable, f: Figures): string[] {
  const { costs } = table
  const burden =
    Number(costs.burden) === 0
      ? ''
      : ` × ${f.plain(one.plus(costs.burden), 4)} with payroll taxes and insurance`
  const wage = wageCost(table)!.eq(costs.crewHour!) ? '' : burden
  const told: [keyof Cost, string][] = [
    ['material', 'Material'],
    ['purchaseTax', 'Sales tax on purchases'],
    ['delivery', 'Delivery'],
    ['labor', `Labor: ${f.hours(crewHours)} × ${f.money(costs.crewHour!)}${wage}`],
    ['truck', `Truck: ${f.money(costs.truckPerJob)} + ${f.trips(trips)} × ${f.money(costs.truckPerTrip)}`],
    ['dump', 'Dump fees'],
    ['overhead', `Overhead: ${f.hours(crewHours)} × ${f.money(costs.overheadPerCrewHour)}`],
  ]
  return told
    .filter(([piece]) => Number(cost[piece]) !== 0)
    .map(([piece, words]) => `${words}${words.includes(':') ? ' =' : ':'} ${f.money(cost[piece])}`)
}
