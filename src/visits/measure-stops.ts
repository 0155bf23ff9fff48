import type { StopTold, Told } from '../estimate/job/bed.ts'
import {
  folded,
  LONGEST_STOP_NAME,
  LONGEST_STOP_NOTE,
  LONGEST_STOP_SPOT,
  MOST_STOPS,
  rearranged,
  withCopies,
  withMoved,
} from '../estimate/job/stops.ts'
import { MOST_BEDS_OF_STAFF } from '../estimate/reading/read-beds.ts'
import type { FormFields } from '../http/form-fields.ts'
import { oneLine, severalLines } from '../lib/typed-text.ts'
import type { Sheet, SheetBed, SheetStop } from './sheet.ts'

/** What is wrong with a sheet, or the sheet after something was done to its stops. */
export type Done = { sheet: Sheet; errors: Record<string, string> }

const MOST_COPIES = MOST_STOPS - 1

/** The stops as posted: an id counts only where it is among those that the request has. */
export function stopsPosted(fields: FormFields, known: readonly Told[]): SheetStop[] {
  const ids = new Set(known.flatMap(({ stops = [] }) => stops.flatMap(({ id }) => id ?? [])))
  return fields
    .rows('stops')
    .slice(0, MOST_STOPS)
    .map(row => {
      const id = row.carried('id')
      return {
        ...(ids.has(id) && { id }),
        name: oneLine(row.text('name')),
        note: severalLines(row.text('note')),
        spot: oneLine(row.text('spot')),
        dropped: row.has('drop'),
      }
    })
}

/** The stops of a sheet that are kept, by the place that each has on it; and what is wrong with them, by field. */
export function keptStops({ stops, beds }: Sheet): {
  kept: Map<number, StopTold>
  errors: Record<string, string>
} {
  const kept = new Map<number, StopTold>()
  const errors: Record<string, string> = {}
  const names = new Set<string>()
  for (const [at, { dropped, ...stop }] of stops.entries()) {
    if (dropped) continue
    const fault = faultOf(stop, names) ?? (hasBeds(beds, at) ? null : NO_BEDS)
    if (fault)
      errors[`stops.${at}.${fault === LONG_NOTE ? 'note' : fault === LONG_SPOT ? 'spot' : 'name'}`] = fault
    names.add(folded(stop.name))
    kept.set(at, stop)
  }
  return { kept, errors }
}

const NO_BEDS = 'Add a bed to this stop, or leave the stop out.'
const LONG_NOTE = `Keep the note under ${LONGEST_STOP_NOTE} characters.`
const LONG_SPOT = `Keep it under ${LONGEST_STOP_SPOT} characters.`

/** What is wrong with a stop beside others of these names; null for nothing. */
export function faultOf({ name, note, spot }: StopTold, names: ReadonlySet<string>): string | null {
  if (name === '') return 'Name this stop.'
  if (name.length > LONGEST_STOP_NAME) return `Keep the name under ${LONGEST_STOP_NAME} characters.`
  if (names.has(folded(name))) return 'Another stop has this name.'
  if (note.length > LONGEST_STOP_NOTE) return LONG_NOTE
  return spot.length > LONGEST_STOP_SPOT ? LONG_SPOT : null
}

function hasBeds(beds: SheetBed[], at: number): boolean {
  return beds.some(bed => bed.stop === at && !bed.dropped)
}

/** Does to the stops of a sheet what a button says, as 'copy-stop.3'; undefined where it says nothing of stops. */
export function changeStops(sheet: Sheet, fields: FormFields, told: Told): Done | undefined {
  const [, deed = '', of = ''] =
    /^(copy|up|down|add|sort)-stops?(?:\.(\d{1,2}))?$/.exec(fields.text('do')) ?? []
  const at = Number(of)
  const count = sheet.stops.length
  switch (deed) {
    case 'sort':
      return { sheet: sorted(sheet), errors: {} }
    case 'add':
      return count === 0 ? { sheet: sorted(sheet), errors: {} } : copied(sheet, count - 1, 1, told)
    case 'copy':
      return copied(sheet, at, copiesOf(fields, at), told)
    case 'up':
    case 'down':
      return { sheet: inOrder(sheet, withMoved(count, at, deed === 'up' ? -1 : 1), told), errors: {} }
    default:
      return undefined
  }
}

function copiesOf(fields: FormFields, at: number): number {
  return Math.min(MOST_COPIES, Math.max(1, fields.group(`stops.${at}`).carried('copies')))
}

function copied(sheet: Sheet, at: number, times: number, told: Told): Done {
  const more = times * sheet.beds.filter(bed => bed.stop === at).length
  const fault =
    sheet.stops.length + times > MOST_STOPS
      ? `A job can have ${MOST_STOPS} stops.`
      : sheet.beds.length + more > MOST_BEDS_OF_STAFF
        ? `A job can have ${MOST_BEDS_OF_STAFF} beds.`
        : null
  if (fault) return { sheet, errors: { [`stops.${at}.copies`]: fault } }
  return { sheet: inOrder(sheet, withCopies(sheet.stops.length, at, times), told), errors: {} }
}

function inOrder(sheet: Sheet, order: number[], told: Told): Sheet {
  return { ...sheet, ...rearranged(sheet, order, bed => copyOf(bed, told)) }
}

// A copy is no bed that the homeowner told of, so sizes that were right as told are its own.
function copyOf(bed: SheetBed, told: Told): SheetBed {
  const before = bed.asTold && bed.toldBed !== null ? told.beds[bed.toldBed] : undefined
  const own = before ? { shape: before.shape, sizes: before.sizes } : {}
  return { ...bed, ...own, toldBed: null, asTold: false }
}

/** All beds at one stop to begin with, for others to follow. */
function sorted(sheet: Sheet): Sheet {
  if (sheet.stops.length > 0) return sheet
  const first = { name: 'Stop 1', note: '', spot: '', dropped: false }
  return { ...sheet, stops: [first], beds: sheet.beds.map(bed => ({ ...bed, stop: 0 })) }
}
