import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'

/** What the owner says of days and visits, as columns of the business. */
export type DayRules = Pick<
  Business,
  'move_until_days' | 'visit_minutes' | 'visit_from_hour' | 'visit_to_hour'
>

/** Reads the page of the settings about days and visits. */
export function readDayRules(fields: FormFields): FormReading<DayRules> {
  const whole = (name: string, what: string, least: number, most: number) => {
    const outside = `Give ${what}, from ${least} to ${most}.`
    return fields.wholeNumber(name, { least, most, missing: outside, outside }) ?? least
  }
  const rules = {
    move_until_days: whole('moveUntilDays', 'how many days before the work', 1, 60),
    visit_minutes: whole('visitMinutes', 'how many minutes a visit takes', 10, 480),
    visit_from_hour: whole('visitFromHour', 'the hour at which visits start', 0, 23),
    visit_to_hour: whole('visitToHour', 'the hour by which visits end', 1, 24),
  }
  if (rules.visit_from_hour * 60 + rules.visit_minutes > rules.visit_to_hour * 60)
    fields.fault('visitToHour', 'No visit fits between those hours.')
  return fields.reading(rules)
}

/** The same as the fields of the form. */
export function rulesAsFields(business: Business): Record<string, string> {
  return {
    moveUntilDays: String(business.move_until_days),
    visitMinutes: String(business.visit_minutes),
    visitFromHour: String(business.visit_from_hour),
    visitToHour: String(business.visit_to_hour),
  }
}

export async function changeDayRules(deps: Deps, rules: DayRules): Promise<void> {
  await deps.db.updateTable('business').set(rules).execute()
}
