import type { Kysely } from 'kysely'
import type { Business } from '../business/queries.ts'
import type { Conditions } from '../db/schema/payments.ts'
import type { Database } from '../db/schema.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { Decimal } from '../lib/decimal.ts'
import { depositOf } from '../quotes/conditions.ts'
import { findHeld } from './queries.ts'

interface Asking {
  conditions: Conditions | null
  total: string
  currency: string
  accepted_at: string | null
}

/** How the deposit of an accepted price stands: what it asks for, what of it came, and by when the rest is due. */
export interface DepositStanding {
  asked: string
  received: string
  /** 'YYYY-MM-DD'; null while it hangs on a work day that isn't booked. */
  due: string | null
  /** Whether some of it is missing on the day that it is due, or later. */
  isDue: boolean
}

/** Of an accepted price; null where no deposit is asked for, or nothing is accepted. `held` is what came in. */
export function depositStanding(
  quote: Asking,
  held: string,
  firstDay: string | undefined,
  { time_zone }: Pick<Business, 'time_zone'>,
  now: Temporal.Instant,
): DepositStanding | null {
  const asked = depositOf(quote.conditions, quote.total)
  if (Number(asked) === 0 || quote.accepted_at === null) return null
  const before = quote.conditions!.deposit!.daysBefore
  const accepted = dayOf(Temporal.Instant.from(quote.accepted_at), time_zone)
  const due = before === null ? accepted : firstDay ? addDays(firstDay, -before) : null
  const isMissing = new Decimal(held).lt(asked)
  return { asked, received: held, due, isDue: isMissing && due !== null && due <= dayOf(now, time_zone) }
}

/**
 * Whether no day may be chosen before the deposit is there: where the owner holds none without it, and it is due with
 * the acceptance.
 */
export async function isDepositFirst(
  db: Kysely<Database>,
  quoteRequestId: number,
  { conditions, total }: Pick<Asking, 'conditions' | 'total'>,
  { deposits }: Pick<Business, 'deposits'>,
): Promise<boolean> {
  if (deposits.holdsDay || !conditions?.deposit || conditions.deposit.daysBefore !== null) return false
  return new Decimal(await findHeld(db, quoteRequestId)).lt(depositOf(conditions, total))
}

/** How it stands, as its homeowner reads it. */
export function depositInWords(
  { asked, received, due, isDue }: DepositStanding,
  currency: string,
  language: Language,
): string[] {
  const money = (amount: string) => moneyInWords(amount, currency, language)
  const amount = money(asked)
  if (new Decimal(received).gte(asked)) return [t(language, 'deposit.received', { amount: money(received) })]
  const part =
    Number(received) > 0 ? [t(language, 'deposit.part', { received: money(received), amount })] : []
  if (isDue) return [t(language, 'deposit.due-now', { amount }), ...part]
  if (due === null) return part
  return [t(language, 'deposit.due-by', { amount, day: dayInWords(due, language, true) }), ...part]
}
