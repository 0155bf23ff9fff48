import type { Terms } from '../job/terms.ts'
import type { Tax } from '../table/tax.ts'
import { covers, plainPostcode } from '../table/travel.ts'

/** The kind of work by whose rules a job is taxed: new work that needs a certificate is upkeep until there is one. */
export function taxedAs({ work, certificate = '' }: Terms, { newWork }: Tax): Terms['work'] {
  return work === 'new' && (!newWork.certificate || certificate !== '') ? 'new' : 'upkeep'
}

/** Whether new work is taxed in any other way than upkeep. */
export function differsInNewWork({ taxed, newWork, second, onPurchasesNew }: Tax): boolean {
  const kinds = Object.keys(taxed.new) as (keyof Tax['taxed']['new'])[]
  return (
    newWork.rate !== null ||
    newWork.name.en !== null ||
    second.newRate !== null ||
    onPurchasesNew !== null ||
    kinds.some(kind => taxed.new[kind] !== taxed.upkeep[kind])
  )
}

/**
 * The rates for a job, as shares: those typed for it alone, else that of new work, else where the work is done, else the
 * usual ones. second is null where there is no second tax.
 */
export function ratesAt(postcode: string, terms: Terms, tax: Tax): { rate: string; second: string | null } {
  const asked = plainPostcode(postcode)
  const area = asked ? tax.areas.find(one => one.postcodes.some(listed => covers(listed, asked))) : undefined
  const isNew = taxedAs(terms, tax) === 'new'
  const { second } = tax
  return {
    rate: terms.rates?.rate ?? (isNew ? tax.newWork.rate : null) ?? area?.rate ?? tax.rate,
    second:
      second.rate && (terms.rates?.second ?? (isNew ? second.newRate : null) ?? area?.second ?? second.rate),
  }
}
