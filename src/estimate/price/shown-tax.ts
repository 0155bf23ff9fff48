import { Decimal, one } from '../../lib/decimal.ts'
import { plainTerms } from '../job/terms.ts'
import type { RateTable } from '../table/rate-table.ts'
import { taxOn } from '../tax/tax-on.ts'
import { totalOf } from './price-lines.ts'

/** What homeowners are told of tax beside a range: its rate as a share, and whether the range has it in it. */
export interface TaxShown {
  rate: string
  inRange: boolean
}

/**
 * How a range shows tax, what it makes of a price that the table's figures come to, and the likely price with it. Where only some lines are
 * taxed, every scenario is taken to be taxed in the same share as the price of the sizes as told.
 */
export function shownTax(
  lines: { kind: string; amount: string }[],
  postcode: string,
  table: RateTable,
): { tax: TaxShown | null; factor: Decimal; likely: Decimal } {
  const sum = totalOf(lines)
  const due = taxOn(lines, postcode, plainTerms, table)
  if (due === null) return { tax: null, factor: one, likely: sum }
  // Where nothing is charged there is nothing to leave out.
  if (Number(due.amount) === 0) return { tax: { rate: '0', inRange: true }, factor: one, likely: sum }
  const inRange = due.included || table.tax!.inRanges
  const comesOn = inRange && !due.included && sum.gt(0)
  const factor = comesOn ? one.plus(new Decimal(due.taxed).div(sum).times(due.rate)) : one
  return { tax: { rate: due.rate, inRange }, factor, likely: comesOn ? sum.plus(due.amount) : sum }
}
