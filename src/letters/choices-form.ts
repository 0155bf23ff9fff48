import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { type Choices, TO_HOMEOWNERS, TO_STAFF } from '../outbox/choices.ts'

const MOST_DAYS = 60

/** How messages to the staff may go. */
export const STAFF_CHOICES = [
  { value: 'on', label: 'As it comes' },
  { value: 'daily', label: 'Once a day' },
  { value: 'off', label: 'Not at all' },
] as const

/** Reads which messages go out, from the fields `homeowner.…`, `days.…` and `staff.…`. */
export function readChoices(fields: FormFields): FormReading<Choices> {
  const [homeowner, days, staff] = ['homeowner', 'days', 'staff'].map(name => fields.group(name))
  const choices: Choices = {}
  for (const { name, days: within } of TO_HOMEOWNERS) {
    const outside = `Give the days, from 1 to ${MOST_DAYS}.`
    const rules = { least: 1, most: MOST_DAYS, missing: outside, outside }
    choices[name] = {
      choice: homeowner!.tick(name) ? 'on' : 'off',
      days: within ? days!.wholeNumber(name, rules) : null,
    }
  }
  const values = STAFF_CHOICES.map(({ value }) => value)
  for (const { name } of TO_STAFF) {
    choices[name] = { choice: staff!.choice(name, values, 'Pick one.') ?? 'on', days: null }
  }
  return fields.reading(choices)
}

/** The same as the fields of the form. */
export function choicesAsFields(choices: Choices): Record<string, string> {
  const fields: Record<string, string> = {}
  for (const { name, days } of TO_HOMEOWNERS) {
    if (choices[name]!.choice !== 'off') fields[`homeowner.${name}`] = 'yes'
    if (days) fields[`days.${name}`] = String(choices[name]!.days)
  }
  for (const { name } of TO_STAFF) fields[`staff.${name}`] = choices[name]!.choice
  return fields
}
