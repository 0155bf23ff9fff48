import { Decimal, one } from '../../lib/decimal.ts'
import type { Terms } from '../job/terms.ts'
import type { RateTable } from '../table/rate-table.ts'
import { ratesAt, taxedAs } from '../tax/rates-at.ts'
import { taxedByName, taxName } from '../tax/tax-name.ts'
import type { TaxAmount, TaxDue } from '../tax/tax-on.ts'
import type { Figures } from './figures.ts'

/** What the steps of tax are told from. */
interface TaxTold {
  job: { postcode: string }
  tax: TaxDue | null
  terms: Terms
  table: RateTable
  figures: Figures
}

/** How each tax on a price comes about, by the rules of which kind of work, and why a rate is another for this job. */
export function taxSteps(told: TaxTold): string[] {
  const { tax, terms, table } = told
  if (tax === null || table.tax === null) return []
  const steps = [taxStep(tax, taxName(taxedByName(terms, table), table).en, told)]
  if (tax.second) steps.push(taxStep(tax.second, taxName('second', table).en, told))
  return terms.exempt === '' ? [...workSteps(told), ...steps] : steps
}

function taxStep(due: TaxAmount, name: string, { tax, terms, table, figures: f }: TaxTold): string {
  if (Number(due.off) > 0)
    return `${name} taken off, under certificate ${terms.exempt}: ${f.money(new Decimal(due.off).negated())}`
  if (terms.exempt !== '') return `${name}: none, under certificate ${terms.exempt}`
  const { taxed, untaxed, included, second } = tax!
  const left = Number(untaxed) === 0 ? '' : ` (${f.money(untaxed)} isn’t taxed)`
  const each = table.tax!.rounded === 'line' ? ', each line rounded to the cent' : ''
  const base = `${f.money(taxed)}${left} × ${f.share(due.rate)}`
  if (!included) return `${name}: ${base}${each} = ${f.money(due.amount)}`
  const all = one.plus(tax!.rate).plus(second?.rate ?? 0)
  return `${name}, included: ${base} ÷ ${f.share(all)}${each} = ${f.money(due.amount)}`
}

function workSteps({ job, terms, table, figures: f }: TaxTold): string[] {
  const tax = table.tax!
  const steps: string[] = []
  if (terms.work === 'new') {
    const { certificate = '' } = terms
    if (taxedAs(terms, tax) === 'upkeep')
      steps.push('Tax as in upkeep: there’s no certificate for the new work')
    else
      steps.push(
        tax.newWork.certificate ? `Tax as in new work, certificate: ${certificate}` : 'Tax as in new work',
      )
  }
  if (terms.rates) {
    const { rates: _, ...usual } = terms
    const { rate, second } = ratesAt(job.postcode, usual, tax)
    const instead = [rate, second].filter(one => one !== null).map(f.share)
    steps.push(`Rate for this job (${terms.rates.reason}), instead of ${instead.join(' and ')}`)
  }
  return steps
}
