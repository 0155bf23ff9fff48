import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { addDays } from '../lib/dates.ts'
import type { CrewMember } from './crew.ts'

/** How many may be listed. */
export const MOST_CREW = 40
const LONGEST_OFF = 60

/** Who works, as the page sent it, and who is taken out by their ids. */
export interface CrewForm {
  crew: CrewMember[]
  out: number[]
}

/** Reads the rows `crew.0.…`: a name, the hours of seven days, 'id' of who was there, and 'out'. A row without a name and an id is nobody. */
export function readCrew(fields: FormFields): FormReading<CrewForm> {
  const crew: CrewMember[] = []
  const out: number[] = []
  for (const row of fields.rows('crew').slice(0, MOST_CREW + 1)) {
    const id = row.carried('id') || null
    if (id !== null && row.tick('out')) out.push(id)
    else if (id !== null || row.text('name') !== '')
      crew.push({ id, name: readName(row), hours: readHours(row) })
  }
  const names = crew.map(({ name }) => name.toLowerCase())
  if (new Set(names).size < names.length) fields.fault('crew.0.name', 'Two people have the same name.')
  return fields.reading({ crew, out })
}

function readName(row: FormFields): string {
  return row.line('name', {
    most: 60,
    missing: 'Give a name, or check “Take out”.',
    tooLong: 'Keep the name under 60 characters.',
  })
}

function readHours(row: FormFields): string[] {
  const outside = 'Give hours from 0 to 24.'
  return Array.from({ length: 7 }, (_, weekday) => {
    const hours = row.figure(`h${weekday}`, { places: 2, most: 24, outside, unreadable: outside })
    return hours ?? '0'
  })
}

/** Reads somebody's days off, two months at most at a time; one day where no last one is given. */
export function readCrewOff(
  fields: FormFields,
  today: string,
  ids: number[],
): FormReading<{ id: number; from: string; to: string }> {
  const off = fields.group('away')
  const id = off.choice('who', ids.map(String), 'Say who is off.')
  const from = off.day('from', 'Give the first day off, such as 2026-07-06.')
  const to = off.text('to') === '' ? from : off.day('to', 'Give the last day off, such as 2026-07-10.')
  if (from && (from < today || from > addDays(today, 400)))
    off.fault('from', 'Give a day from today on, within a year.')
  if (from && to && to < from) off.fault('to', 'The last day is before the first.')
  if (from && to && to > addDays(from, LONGEST_OFF))
    off.fault('to', `Give ${LONGEST_OFF} days at most at a time.`)
  return fields.reading({ id: Number(id), from: from ?? '', to: to ?? '' })
}
