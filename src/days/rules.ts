import { amountTyped, readAmountAsked } from '../business/amount-asked.ts'
import type { Business } from '../business/queries.ts'
import { json } from '../db/json.ts'
import type { Amount } from '../db/schema/payments.ts'
import type { Deps } from '../deps.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { addDays } from '../lib/dates.ts'

/** What the owner says of days and visits, as columns of the business. */
export type DayRules = Pick<
  Business,
  | 'day_choice'
  | 'half_days'
  | 'say_day_before'
  | 'notice_days'
  | 'near_first'
  | 'near_discount'
  | 'move_until_days'
  | 'visit_minutes'
  | 'visit_from_hour'
  | 'visit_to_hour'
>

const MOST_OFF = 0.5
const DAY_CHOICES = ['day', 'week', 'ask'] as const

function readNearDiscount(fields: FormFields): Amount | null {
  const typed = fields.text('nearDiscount')
  const amount = readAmountAsked(typed)
  if ((typed !== '' && amount === null) || (amount?.by === 'share' && Number(amount.value) > MOST_OFF))
    fields.fault('nearDiscount', 'Give a percentage up to 50%, such as 5%, or an amount, such as 20.')
  return amount
}

/** Reads the page of the settings about days and visits. */
export function readDayRules(fields: FormFields): FormReading<DayRules> {
  const whole = (name: string, what: string, least: number, most: number) => {
    const outside = `Give ${what}, from ${least} to ${most}.`
    return fields.wholeNumber(name, { least, most, missing: outside, outside }) ?? least
  }
  const rules = {
    day_choice: fields.choice('dayChoice', DAY_CHOICES, 'Say how a day is chosen.') ?? 'day',
    notice_days: whole('noticeDays', 'how many days ahead', 1, 60),
    half_days: fields.tick('halfDays'),
    say_day_before: whole('sayDayBefore', 'how many days before the week', 1, 30),
    near_first: fields.tick('nearFirst'),
    near_discount: readNearDiscount(fields),
    move_until_days: whole('moveUntilDays', 'how many days before the work', 1, 60),
    visit_minutes: whole('visitMinutes', 'how many minutes a visit takes', 10, 480),
    visit_from_hour: whole('visitFromHour', 'the hour at which visits start', 0, 23),
    visit_to_hour: whole('visitToHour', 'the hour by which visits end', 1, 24),
  }
  if (rules.visit_from_hour * 60 + rules.visit_minutes > rules.visit_to_hour * 60)
    fields.fault('visitToHour', 'No visit fits between those hours.')
  return fields.reading(rules)
}

const LONGEST_OFF = 60

/** Reads a range of days off, from today on, two months at most; one day where no last one is given. */
export function readDaysOff(
  fields: FormFields,
  today: string,
): FormReading<{ from: string; to: string; why: string }> {
  const off = fields.group('off')
  const from = off.day('from', 'Give the first day off, such as 2026-07-06.')
  const to = off.text('to') === '' ? from : off.day('to', 'Give the last day off, such as 2026-07-10.')
  const why = off.line('why', { most: 60, tooLong: 'Keep it under 60 characters.' })
  if (from && (from < today || from > addDays(today, 400)))
    off.fault('from', 'Give a day from today on, within a year.')
  if (from && to && to < from) off.fault('to', 'The last day is before the first.')
  if (from && to && to > addDays(from, LONGEST_OFF))
    off.fault('to', `Give ${LONGEST_OFF} days at most at a time.`)
  return fields.reading({ from: from ?? '', to: to ?? '', why })
}

/** The same as the fields of the form. */
export function rulesAsFields(business: Business): Record<string, string> {
  return {
    dayChoice: business.day_choice,
    ...(business.half_days && { halfDays: 'yes' }),
    sayDayBefore: String(business.say_day_before),
    noticeDays: String(business.notice_days),
    ...(business.near_first && { nearFirst: 'yes' }),
    nearDiscount: amountTyped(business.near_discount),
    moveUntilDays: String(business.move_until_days),
    visitMinutes: String(business.visit_minutes),
    visitFromHour: String(business.visit_from_hour),
    visitToHour: String(business.visit_to_hour),
  }
}

export async function changeDayRules(deps: Deps, rules: DayRules): Promise<void> {
  const { near_discount: discount } = rules
  const row = { ...rules, near_discount: discount && json(discount) }
  await deps.db.updateTable('business').set(row).execute()
}
