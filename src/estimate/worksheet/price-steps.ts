import type { Job } from '../job/bed.ts'
import type { Terms } from '../job/terms.ts'
import { dependsOnHours } from '../price/cost-plus.ts'
import type { PriceLine } from '../price/price-lines.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { TaxDue } from '../tax/tax-on.ts'
import { equation } from './equation.ts'
import type { Figures } from './figures.ts'
import { soldUnitSteps } from './sold-steps.ts'
import { taxSteps } from './tax-steps.ts'

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
  return [...steps, ...taxSteps(told), `Total: ${f.money(total)}`]
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
    case 'extra-labor':
      return 'Labor, on its own line'
    case 'size':
      return 'Larger-job rate. Priced as the next size up, with the cheapest material to fill the gap, it costs less'
    case 'set-up':
      return dependsOnHours(job, table) ? 'Setup and coming there, from their cost' : 'Setup, from its cost'
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
