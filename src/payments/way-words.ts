import type { PaymentTable } from '../db/schema/payments.ts'
import type { Translate } from '../language/catalogue.ts'

/** How money changed hands: 'Check'. */
export function wayInWords(way: PaymentTable['way'], t: Translate): string {
  return t(way === 'credit' ? 'bill.way-credit' : `deposit.way-${way}`)
}
