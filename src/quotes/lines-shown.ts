import { moneyInWords } from '../language/money-in-words.ts'
import { isAdjustable } from './compose-lines.ts'
import type { QuoteReading } from './form.ts'
import { lineName, lineQuantity } from './line-name.ts'
import type { Priced } from './pricing.ts'

/** The lines of the form of a quote as they were worked out, with the rates that they came by or without. */
export function linesShown(priced: Priced, { typed, errors, wanted }: QuoteReading, withRates: boolean) {
  const { price, rates } = priced
  const { currency } = rates.body
  const lines = price.lines.filter(isAdjustable).map((line, index) => {
    const name = `lines.${index}`
    const counted = {
      kind: line.kind,
      slug: line.slug,
      quantity: line.quantity?.value ?? null,
      unit: line.quantity?.unit ?? null,
      rate: withRates ? line.rate : null,
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
