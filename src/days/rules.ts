import type { Deps } from '../deps.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'

/** What the owner says of days, beside the business: until how many days before it homeowners can move the work. */
export interface DayRules {
  moveUntilDays: number
}

/** Reads the page Days of the settings. */
export function readDayRules(fields: FormFields): FormReading<DayRules> {
  const days = 'Give how many days before the work, from 1 to 60.'
  const moveUntilDays = fields.wholeNumber('moveUntilDays', {
    least: 1,
    most: 60,
    missing: days,
    outside: days,
  })
  return fields.reading({ moveUntilDays: moveUntilDays ?? 1 })
}

export async function changeDayRules(deps: Deps, rules: DayRules): Promise<void> {
  await deps.db.updateTable('business').set({ move_until_days: rules.moveUntilDays }).execute()
}
