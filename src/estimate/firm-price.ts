import type { Job } from './bed.ts'
import { cents, Decimal, middleOf, one, sumOf } from './decimal.ts'
import { extraQuantity, extrasOf } from './extras.ts'
import { type PriceLine, priceLines, totalOf } from './price-lines.ts'
import { allowanceOf, type JobQuantities, jobQuantities } from './quantities.ts'
import type { RateTable } from './rate-table.ts'
import { type Q, quantity, unitSystem } from './units.ts'

export type { PriceLine } from './price-lines.ts'

/**
 * The price at the middle of every rate. crewHours per task: 'spread' or an extra's slug, in hours; inPlace in
 * ft³|m³; toOrder in yd³|m³ with the allowance; cost in money and margin as a share of the price, both null until
 * every material's cost and a crew hour's cost are known.
 */
export interface Price {
  lines: PriceLine[]
  total: string
  crewHours: { task: string; hours: string }[]
  crewHoursTotal: string
  inPlace: Q
  toOrder: { finish: string; volume: Q }[]
  cost: string | null
  margin: string | null
}

/** Prices a job firmly; its total is the ballpark's likely for the same job. */
export function workOutPrice(job: Job, table: RateTable): Price {
  const { volume, bulk } = unitSystem(table.units)
  const quantities = jobQuantities(job, table)
  const lines = priceLines(job, quantities, table)
  const total = totalOf(lines)
  const crewHours = crewHoursOf(job, quantities, table)
  const crewHoursTotal = sumOf(crewHours.map(({ hours }) => new Decimal(hours)))
  const toOrder = volumesToOrder(quantities, table)
  const cost = costOf(toOrder, crewHoursTotal, table)
  return {
    lines,
    total: cents(total),
    crewHours,
    crewHoursTotal: crewHoursTotal.toFixed(2),
    inPlace: quantity(quantities.inPlace, volume),
    toOrder: toOrder.map(({ finish, volume }) => ({ finish: finish.slug, volume: quantity(volume, bulk) })),
    cost: cost && cents(cost),
    margin: cost && total.gt(0) ? total.minus(cents(cost)).div(total).toFixed(4) : null,
  }
}

function crewHoursOf(job: Job, quantities: JobQuantities, table: RateTable): Price['crewHours'] {
  const { volumesPerBulk } = unitSystem(table.units)
  const slowed = sumOf(quantities.finishes.map(finish => finish.slowed))
  const spread = slowed.times(middleOf(table.labour.spread)).div(volumesPerBulk)
  const extras = extrasOf(job, table).map(extra => {
    const { units, unitsPer } = extraQuantity(extra, job, quantities, table)
    return { task: extra.slug, hours: units.times(middleOf(extra.crewHours)).div(unitsPer).toFixed(2) }
  })
  return [{ task: 'spread', hours: spread.toFixed(2) }, ...extras]
}

/** What to order of each finish, in yd³|m³: the volume in place and the allowance for settling and loss. */
export function volumesToOrder(quantities: JobQuantities, table: RateTable) {
  const { volumesPerBulk } = unitSystem(table.units)
  return quantities.finishes.map(({ finish, inPlace }) => ({
    finish,
    volume: inPlace.times(one.plus(allowanceOf(finish, table))).div(volumesPerBulk),
  }))
}

function costOf(
  toOrder: ReturnType<typeof volumesToOrder>,
  crewHours: Decimal,
  table: RateTable,
): Decimal | null {
  const labour = table.costs.crewHour
  if (labour === null || toOrder.some(({ finish }) => finish.materialCost === null)) return null
  const materials = toOrder.map(({ finish, volume }) => volume.times(finish.materialCost!))
  return sumOf([...materials, crewHours.times(labour)])
}
