import type { Business } from '../business/queries.ts'
import { isHolidayOf } from '../days/holidays.ts'
import { earliestDay, earliestForStaff } from '../days/room.ts'
import type { Amount, Conditions } from '../db/schema/payments.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { shareInWords } from '../language/quantity-in-words.ts'
import { dayAfterBusinessDays } from '../lib/business-days.ts'
import { dayOf, weekdayOf } from '../lib/dates.ts'
import { cents, Decimal } from '../lib/decimal.ts'

/** Three business days to cancel, as the federal rule for sales made at home has it (16 CFR Part 429). */
const DAYS_TO_CANCEL = 3

/** What an amount comes to of a total, to the cent. */
export function amountOf({ by, value }: Amount, total: string): Decimal {
  return new Decimal(cents(by === 'share' ? new Decimal(total).times(value) : value))
}

/** The deposit that a price of this total asks for, '103.21': never over the cap, nor over the total; '0.00' for none. */
export function depositOf(conditions: Conditions | null, total: string): string {
  const deposit = conditions?.deposit
  if (!deposit) return '0.00'
  const bounds = [amountOf(deposit, total), new Decimal(total)]
  if (deposit.cap) bounds.push(amountOf(deposit.cap, total))
  return cents(Decimal.min(...bounds))
}

type Waiting = { conditions: Conditions | null; accepted_at: string | null }

/** The first day that somebody may book under these conditions: as usual, or when the work needn't wait any longer. */
export function earliestWork(
  business: Business,
  quote: Waiting,
  now: Temporal.Instant,
  who: 'homeowner' | 'staff' = 'homeowner',
): string {
  const usual = who === 'staff' ? earliestForStaff(business, now) : earliestDay(business, now)
  return afterWaiting(usual, business, quote, now)
}

/** The day, or the fourth business day after accepting where the work waits until then and that is later. */
export function afterWaiting(
  day: string,
  { time_zone, country }: Pick<Business, 'time_zone' | 'country'>,
  { conditions, accepted_at }: Waiting,
  now: Temporal.Instant,
): string {
  if (!conditions?.waits) return day
  const accepted = accepted_at === null ? now : Temporal.Instant.from(accepted_at)
  const isCounted = country === 'US' ? undefined : (one: string) => isWorkedIn(country, one)
  const fourth = dayAfterBusinessDays(dayOf(accepted, time_zone), DAYS_TO_CANCEL, isCounted)
  return fourth > day ? fourth : day
}

// The rule of the United States counts its federal holidays; elsewhere the holidays are those of the country.
function isWorkedIn(country: string, day: string): boolean {
  return weekdayOf(day) !== 7 && !isHolidayOf(country, day)
}

/** '25%' or '$100.00'. */
export function amountInWords({ by, value }: Amount, currency: string, language: Language): string {
  return by === 'share' ? shareInWords(value, language) : moneyInWords(value, currency, language)
}

/**
 * What a price asks for before the work and what it gives, a line each; none where there is nothing. Of the deposit what
 * was asked for, or how it `stands` by now.
 */
export function conditionsInWords(
  { conditions, total, currency }: { conditions: Conditions | null; total: string; currency: string },
  language: Language,
  stands?: string[],
): string[] {
  if (!conditions) return []
  const { deposit, notice, waits } = conditions
  const amount = moneyInWords(depositOf(conditions, total), currency, language)
  const days = deposit?.daysBefore ?? 0
  const due = days === 0 ? 'deposit.due-accept' : days === 1 ? 'deposit.due-day' : 'deposit.due-days'
  return [
    ...(stands ?? (deposit ? [t(language, due, { amount, days })] : [])),
    ...(waits ? [t(language, 'deposit.waits')] : []),
    ...(notice ? [notice[language] || notice.en] : []),
  ]
}
