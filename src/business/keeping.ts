import { json } from '../db/json.ts'
import type { KeepingSettings } from '../db/schema/business.ts'
import type { Deps } from '../deps.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'

/** What a business starts with; also the longest that can be set. */
export const LONGEST: KeepingSettings = {
  requestsMonths: 36,
  messagesMonths: 24,
  guessesDays: 30,
  filesDays: 30,
}

/** Reads for how long what is known of people is kept. */
export function readKeeping(fields: FormFields): FormReading<KeepingSettings> {
  const count = (name: keyof KeepingSettings, what: string) => {
    const outside = `Give the ${what}, from 1 to ${LONGEST[name]}.`
    return fields.wholeNumber(name, { least: 1, most: LONGEST[name], missing: outside, outside }) ?? 1
  }
  return fields.reading({
    requestsMonths: count('requestsMonths', 'months'),
    messagesMonths: count('messagesMonths', 'months'),
    guessesDays: count('guessesDays', 'days'),
    filesDays: count('filesDays', 'days'),
  })
}

export async function changeKeeping(deps: Deps, keeping: KeepingSettings): Promise<void> {
  await deps.db
    .updateTable('business')
    .set({ keeping: json(keeping) })
    .execute()
}
