import { Decimal, one } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import type { Terms } from '../job/terms.ts'
import type { PriceLine } from '../price/price-lines.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { TaxDue } from '../tax/tax-on.ts'
import { equation } from './equation.ts'
import type { Figures } from './figures.ts'
import { soldUnitSteps } from './sold-steps.ts'

/** What the steps of a price are told from. */
export interface PriceTold {
  job: Job
  lines: PriceLine[]
  tax: TaxDue | null
  total: string
  terms: Terms
  table: RateTable
  figures: Figures
}

/** How every line of a price came about, and the total. */
export function priceSteps(told: PriceTold): string[] {
  const { lines, total, figures: f } = told
  const steps = lines.map(line => `${lineInWords(line, told)}: ${equation(line.factors, line.amount, f)}`)
  return [...steps, ...taxStep(told), `Total: ${f.money(total)}`]
}

function lineInWords(
  { kind, slug, amount }: PriceLine,
  { job, table, terms, figures: f }: PriceTold,
): string {
  switch (kind) {
    case 'finish': {
      const finish = table.finishes.find(one => one.slug === slug)!
      return `${finish.name.en}${soldUnitSteps(finish, f)}`
    }
    case 'laying':
      return 'Labor, on its own line'
    case 'size':
      return 'Larger-job rate. Priced as the next size up, with the cheapest material to fill the gap, it costs less'
    case 'set-up':
      return 'Setup, from its cost'
    case 'extra':
      return table.extras.find(one => one.slug === slug)!.name.en
    case 'travel':
      return `Travel to ${job.postcode}`
    case 'adjustment': {
      const { by, reason } = terms.adjustment!
      return `${Number(amount) < 0 ? 'Discount' : 'Surcharge'} (${reason})${by === 'money' ? ', as agreed' : ''}`
    }
    case 'minimum':
      return 'Added to reach the minimum charge'
    default:
      return kind satisfies never
  }
}

function taxStep({ tax, terms, table, figures: f }: PriceTold): string[] {
  if (tax === null || table.tax === null) return []
  const name = table.tax.name.en
  if (Number(tax.off) > 0)
    return [
      `${name} taken off, under certificate ${terms.exempt}: ${f.money(new Decimal(tax.off).negated())}`,
    ]
  if (terms.exempt !== '') return [`${name}: none, under certificate ${terms.exempt}`]
  const left = Number(tax.untaxed) === 0 ? '' : ` (${f.money(tax.untaxed)} isn’t taxed)`
  const each = table.tax.rounded === 'line' ? ', each line rounded to the cent' : ''
  return tax.included
    ? [
        `${name}, included: ${f.money(tax.taxed)}${left} × ${f.share(tax.rate)} ÷ ${f.share(one.plus(tax.rate))}${each} = ${f.money(tax.amount)}`,
      ]
    : [`${name}: ${f.money(tax.taxed)}${left} × ${f.share(tax.rate)}${each} = ${f.money(tax.amount)}`]
}
