import { cents, Decimal } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { jobQuantities } from '../job/quantities.ts'
import { type Terms, termsTold } from '../job/terms.ts'
import { hoursOf, type Task, tasksOf } from '../labor/tasks.ts'
import { type Shopping, shoppingFor } from '../packs/shopping.ts'
import type { RateTable } from '../table/rate-table.ts'
import { asSold, soldIn } from '../table/sold.ts'
import { type TaxableLine, type TaxDue, taxesOf, taxOn } from '../tax/tax-on.ts'
import { type Q, quantity, unitSystem } from '../units/units.ts'
import { type Cost, costOf, earningsOf } from './cost.ts'
import { tableForJob } from './job-table.ts'
import { type PriceLine, priceLines, totalOf } from './price-lines.ts'

/**
 * The price at the middle of every rate. lines are before a tax that comes on top, net what they come to without any
 * tax, total what is to be paid. laborHours per task, in hours; inPlace in ft³|m³; toOrder in what each finish is sold in, with the allowance; shopping is how it is bought;
 * cost in money and margin as a share of net, both null until every material's cost and a labor hour's cost are known.
 */
export interface Price {
  lines: PriceLine[]
  tax: TaxDue | null
  net: string
  total: string
  laborHours: Task[]
  laborHoursTotal: string
  inPlace: Q
  toOrder: { finish: string; amount: Q }[]
  shopping: Shopping
  costs: Cost | null
  cost: string | null
  margin: string | null
  payPerLaborHour: string | null
}

/** Prices a job firmly; on the terms told its total is the ballpark's likely for the same job, where ranges have the tax in them. */
export function workOutPrice(job: Job, rates: RateTable, terms: Terms = termsTold(job, rates)): Price {
  const table = tableForJob(rates, terms)
  const { volume, volumesPerBulk } = unitSystem(table.units)
  const quantities = jobQuantities(job, table)
  const lines = priceLines(job, quantities, table, terms)
  const paid = withTax(lines, job.postcode, terms, table)
  const shopping = shoppingFor(job, quantities, table)
  const laborHours = tasksOf(job, quantities, shopping.trips, table)
  const laborHoursTotal = hoursOf(laborHours)
  const costs = costOf(job, quantities, shopping, laborHoursTotal, table)
  const earnings = costs && earningsOf(new Decimal(paid.net), costs, laborHoursTotal)
  return {
    lines,
    ...paid,
    laborHours,
    laborHoursTotal: laborHoursTotal.toFixed(2),
    inPlace: quantity(quantities.inPlace, volume),
    toOrder: shopping.finishes.map(({ finish, need }) => ({
      finish: finish.slug,
      amount: quantity(asSold(need.times(volumesPerBulk), finish, table), soldIn(finish, table).unit),
    })),
    shopping,
    costs,
    cost: costs?.total ?? null,
    margin: earnings?.margin?.toFixed(4) ?? null,
    payPerLaborHour: (earnings?.payPerLaborHour && cents(earnings.payPerLaborHour)) ?? null,
  }
}

/** What a priced job costs if it takes other labor hours, as the contractor reckons them; null while it isn't known. */
export function costWith(
  hours: Decimal,
  { job, price, terms }: { job: Job; price: Pick<Price, 'shopping'>; terms: Terms },
  rates: RateTable,
): Cost | null {
  const table = tableForJob(rates, terms)
  return costOf(job, jobQuantities(job, table), price.shopping, hours, table)
}

/** What lines come to with the tax on them: net without it, total with it. */
export function withTax(
  lines: TaxableLine[],
  postcode: string,
  terms: Terms,
  table: RateTable,
): { tax: TaxDue | null; net: string; total: string } {
  const sum = totalOf(lines)
  const tax = taxOn(lines, postcode, terms, table)
  if (tax === null) return { tax, net: cents(sum), total: cents(sum) }
  const { amount, off } = taxesOf(tax)
  const total = tax.included ? sum.minus(off) : sum.plus(amount)
  return { tax, net: cents(total.minus(amount)), total: cents(total) }
}
