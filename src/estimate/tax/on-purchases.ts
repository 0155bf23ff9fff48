import { once } from '../../lib/once.ts'
import type { Terms } from '../job/terms.ts'
import type { RateTable } from '../table/rate-table.ts'
import { taxedAs } from './rates-at.ts'

/** The table with the tax that is paid on what a job buys, where that is another for the job's kind of work. */
export function withPurchaseTax(table: RateTable, terms: Terms): RateTable {
  const { tax } = table
  if (tax === null || tax.onPurchasesNew === null || taxedAs(terms, tax) === 'upkeep') return table
  return forNewWork(table)
}

// The same object each time, since quantities are kept by their table.
const forNewWork = once((table: RateTable): RateTable => {
  const tax = table.tax!
  return {
    ...table,
    tax: { ...tax, onPurchases: tax.onPurchasesNew!, purchasesGivenBack: false, onPurchasesNew: null },
  }
})
