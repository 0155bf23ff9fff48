import type { StopTold } from '../estimate/job/bed.ts'
import { folded } from '../estimate/job/stops.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { Errors } from '../http/posted.ts'
import { oneLine, severalLines } from '../lib/typed-text.ts'
import type { StopsWanted } from './change-stops.ts'
import { faultOf } from './measure-stops.ts'

/**
 * Reads names, notes and order of the stops that there are: each by the number that it has now. The places that were typed
 * sort them, and of equal ones the one that was moved comes first.
 */
export function readStops(
  fields: FormFields,
  before: readonly StopTold[],
): { wanted: StopsWanted; errors: Errors } {
  const errors: Errors = {}
  const rows = fields.rows('stops').flatMap(row => {
    const was = row.carried('was')
    const stop = before[was]
    if (!stop) return []
    const place = row.carried('place')
    const typed = {
      ...stop,
      name: oneLine(row.text('name')),
      note: severalLines(row.text('note')),
      spot: oneLine(row.text('spot')),
    }
    return [{ was, place, isMoved: place !== row.carried('placeWas'), ...typed }]
  })
  const sorted = rows.sort(
    (a, b) => a.place - b.place || Number(b.isMoved) - Number(a.isMoved) || a.was - b.was,
  )
  const names = new Set<string>()
  const stops = sorted.map(({ place: _, isMoved: __, ...stop }, at) => {
    const fault = faultOf(stop, names)
    if (fault) errors[`stops.${at}.name`] = fault
    names.add(folded(stop.name))
    return stop
  })
  return { wanted: { seen: fields.text('seen'), stops }, errors }
}
