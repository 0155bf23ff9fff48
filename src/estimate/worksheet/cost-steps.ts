import { Decimal } from '../../lib/decimal.ts'
import { driveTo, truckUnits } from '../labor/coming.ts'
import { type Cost, earningsOf, type LaborCost, laborCosts } from '../price/cost.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { Figures } from './figures.ts'

/** What the cost of a job hangs on besides what is bought. */
export interface CostTold {
  net: string
  laborHours: Decimal
  trips: Decimal
  postcode: string
}

/** How the cost of a job comes about, and what a price, before tax, leaves of it. */
export function costSteps(cost: Cost | null, told: CostTold, table: RateTable, f: Figures): string[] {
  if (cost === null) return ['The cost isn’t known yet. The wage or the cost of a material is missing.']
  const { net, laborHours } = told
  const { margin, payPerLaborHour } = earningsOf(new Decimal(net), cost, laborHours)
  const left = new Decimal(net).minus(cost.total)
  return [
    ...pieces(cost, told, table, f),
    `Cost: ${f.money(cost.total)}`,
    ...(margin
      ? [
          `Margin: ${f.money(net)} − ${f.money(cost.total)} = ${f.money(left)}; ÷ ${f.money(net)} = ${f.share(margin)}`,
        ]
      : []),
    ...(payPerLaborHour
      ? [
          `Pay: (${f.money(net)} − ${f.money(cost.total)} + ${f.money(cost.labor)} of wages) ÷ ${f.hours(laborHours)} = ${f.money(payPerLaborHour.toDecimalPlaces(2))} per labor hour`,
        ]
      : []),
  ]
}

function pieces(cost: Cost, told: CostTold, table: RateTable, f: Figures): string[] {
  const known = (piece: keyof Cost, words: string) => {
    if (Number(cost[piece]) === 0) return []
    const amount = f.money(cost[piece])
    if (words.endsWith(`: ${amount}`)) return [words]
    return [`${words}${words.includes(':') ? ' =' : ':'} ${amount}`]
  }
  return [
    ...known('material', 'Material'),
    ...known('purchaseTax', 'Sales tax on purchases'),
    ...known('delivery', 'Delivery'),
    ...laborCosts(told.laborHours, table).flatMap(one => workerSteps(one, f)),
    ...known('truck', `Truck: ${truckSteps(told, table, f)}`),
    ...known('dump', 'Dump fees'),
    ...known('overhead', `Overhead: ${overheadSteps(cost, told, table, f)}`),
  ]
}

function workerSteps({ name, count, hours, wage, burden, wages, onTop }: LaborCost, f: Figures): string[] {
  if (wages.isZero()) return []
  const who = name === '' ? 'Labor' : count.eq(1) ? name : `${f.plain(count)} × ${name}`
  return [
    `${who}: ${f.hours(hours)} × ${f.money(wage)} = ${f.money(wages)}`,
    ...(onTop.isZero()
      ? []
      : [
          `${name === '' ? 'Payroll' : `${name}, payroll`} taxes and insurance: ${f.share(burden)} of that = ${f.money(onTop)}`,
        ]),
  ]
}

function truckSteps(told: CostTold, table: RateTable, f: Figures): string {
  const { costs } = table
  const { trips, laborHours, postcode } = told
  const units = truckUnits(laborHours, postcode, table)
  return [
    ...(Number(costs.truckPerJob) === 0 ? [] : [f.money(costs.truckPerJob)]),
    ...(trips.isZero() || Number(costs.truckPerTrip) === 0
      ? []
      : [`${f.trips(trips)} × ${f.money(costs.truckPerTrip)}`]),
    ...(Number(costs.truckEach) === 0 || units.isZero()
      ? []
      : [`${unitsInWords(units, told, table, f)} × ${f.money(costs.truckEach)}`]),
  ].join(' + ')
}

function unitsInWords(units: Decimal, { postcode }: CostTold, table: RateTable, f: Figures): string {
  const { truckBy } = table.costs
  const { distance } = driveTo(postcode, table)
  switch (truckBy) {
    case 'day':
      return f.days(units)
    case 'hour':
      return `${f.hours(units)} on the clock`
    case 'distance':
      return `${f.days(units.div(distance))} × ${f.far(distance)}`
    default:
      return truckBy satisfies never
  }
}

function overheadSteps(cost: Cost, { laborHours }: CostTold, { costs }: RateTable, f: Figures): string {
  const { overheadPerLaborHour, overheadShare } = costs
  const others = new Decimal(cost.total).minus(cost.overhead)
  return [
    ...(Number(overheadPerLaborHour) === 0
      ? []
      : [`${f.hours(laborHours)} × ${f.money(overheadPerLaborHour)}`]),
    ...(Number(overheadShare) === 0 ? [] : [`${f.share(overheadShare)} of ${f.money(others)}`]),
  ].join(' + ')
}
