import { moneyInWords } from '../language/money-in-words.ts'
import { isAdjustable } from './compose-lines.ts'
import type { QuoteReading } from './form.ts'
import { lineName, lineQuantity } from './line-name.ts'
import type { Priced } from './pricing.ts'

/** The lines of a price as its form has them, beside what was worked out, and how many rows for lines of one's own. */
export function linesShown(priced: Priced, { typed, errors, wanted }: QuoteReading) {
  const { price, rates } = priced
  const { currency } = rates.body
  const lines = price.lines.filter(isAdjustable).map((line, index) => {
    const name = `lines.${index}`
    const counted = {
      kind: line.kind,
      slug: line.slug,
      quantity: line.quantity?.value ?? null,
      unit: line.quantity?.unit ?? null,
      rate: line.rate,
    }
    return {
      what: lineName({ ...line, description: null }, rates.body, 'en'),
      quantity: lineQuantity(counted, rates.body, 'en'),
      workedOut: moneyInWords(line.amount, currency, 'en'),
      was: line.amount,
      changed:
        Boolean(errors[`${name}.amount`] ?? errors[`${name}.reason`]) ||
        wanted.amounts?.[index]?.amount !== line.amount,
    }
  })
  const typedRows = Object.keys(typed).filter(
    name => /^added\.\d+\.description$/.test(name) && typed[name],
  ).length
  return {
    lines,
    addedRows: typedRows + 1,
    workedOutTotal: moneyInWords(price.total, currency, 'en'),
    laborHoursWorkedOut: price.laborHoursTotal,
  }
}
