import type { Terms } from '../job/terms.ts'
import { withCrew } from '../table/crew.ts'
import type { RateTable } from '../table/rate-table.ts'
import { withPurchaseTax } from '../tax/on-purchases.ts'

/** The rate table that one job is worked out by: with who comes to it, and the tax on what is bought for it. */
export function tableForJob(rates: RateTable, terms: Terms): RateTable {
  return withPurchaseTax(withCrew(rates, terms.crew), terms)
}
