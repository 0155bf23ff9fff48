import type { Typed } from '../../http/posted.ts'

const NOW: [before: RegExp, now: string][] = [
  [/^labour(?=\.)/, 'labor'],
  [/^crewHours(?=\.)/, 'laborHours'],
  [/^costs\.crewHour$/, 'costs.wage'],
  [/PerCrewHour$/, 'PerLaborHour'],
]

/** A form's fields by the names that they have now, where it was opened before tables said `labor`, and no crew hours. */
export function byNamesNow(typed: Typed): Typed {
  return Object.fromEntries(
    Object.entries(typed).map(([name, text]) => [
      NOW.reduce((older, [before, now]) => older.replace(before, now), name),
      text,
    ]),
  )
}
