import type { AddedLine } from '../billing/compose-bill.ts'
import { type MoneyView, viewMoney } from '../billing/money-view.ts'
import { type BillPreview, viewPreview } from '../billing/preview.ts'
import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import type { RequestRow } from '../requests/queries.ts'

/** What the page of a request shows of bills. */
export interface BillingOfRequest {
  /** Of a request that was billed. */
  money: MoneyView | null
  /** The bill that can be made; null where none can. */
  preview: BillPreview | null
}

export async function viewBilling(
  deps: Deps,
  business: Business,
  { id, stage }: Pick<RequestRow, 'id' | 'stage'>,
  added: readonly AddedLine[],
): Promise<BillingOfRequest> {
  return {
    money: await viewMoney(deps, business, id),
    preview: stage === 'done' ? await viewPreview(deps, id, added) : null,
  }
}
