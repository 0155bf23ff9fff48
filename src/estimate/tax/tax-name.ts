import type { Terms } from '../job/terms.ts'
import type { Name } from '../table/names.ts'
import type { RateTable } from '../table/rate-table.ts'
import { taxedAs } from './rates-at.ts'

/** Which tax a line is of, where it isn't the usual one: the second, or the one that new work has under its own name. */
export type TaxLine = 'second' | 'new'

/** Whether the first tax of a job goes by the name that it has in new work; null where it goes by the usual one. */
export function taxedByName(terms: Terms, { tax }: Pick<RateTable, 'tax'>): 'new' | null {
  return tax && tax.newWork.name.en !== null && taxedAs(terms, tax) === 'new' ? 'new' : null
}

/** What a tax is called; '' where the business charges none. */
export function taxName(line: TaxLine | null, { tax }: Pick<RateTable, 'tax'>): Name {
  if (tax === null) return { en: '', es: '' }
  const { name, second, newWork } = tax
  const own = line === 'second' ? second.name : line === 'new' ? newWork.name : name
  return { en: own.en ?? name.en, es: own.es ?? name.es }
}
