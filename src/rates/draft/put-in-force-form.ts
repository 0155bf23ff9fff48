import type { FormFields } from '../../http/form-fields.ts'
import type { FormReading } from '../../http/posted.ts'
import type { PutInForce } from './put-in-force.ts'

const MOST_YEARS = 2

/** Reads what a draft is put in force by; the day is from `today` on, and nothing typed is today. */
export function readPutInForce(fields: FormFields, today: string): FormReading<PutInForce> {
  const day = fields.text('day') === '' ? today : fields.day('day', 'Give a day such as 2026-03-01.')
  const last = Temporal.PlainDate.from(today).add({ years: MOST_YEARS }).toString()
  if (day !== null && day < today) fields.fault('day', 'Give today or a later day.')
  if (day !== null && day > last) fields.fault('day', `Give a day within ${MOST_YEARS} years.`)
  return fields.reading({ seen: fields.text('seen'), newest: fields.carried('newest'), day: day ?? today })
}
