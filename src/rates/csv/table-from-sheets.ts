import type { z } from 'zod'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { rateTableSchema } from '../../estimate/table/rate-table-schema.ts'
import { allSheets } from './all-sheets.ts'
import type { Draft } from './draft.ts'
import { readSheets } from './read-sheets.ts'
import type { SheetFault } from './sheet.ts'

export type FromSheets = { ok: true; table: RateTable } | { ok: false; faults: SheetFault[] }

/**
 * Reads a rate table from its CSV files, by their names; what is wrong is told with file, row and column, all at once
 * as far as it can be. `business` has the units and currency, which sheets can't change; `photos` are the names of
 * those that are kept.
 */
export function tableFromSheets(
  files: Record<string, string>,
  business?: Pick<RateTable, 'units' | 'currency'>,
  photos?: ReadonlySet<string>,
): FromSheets {
  const { draft, faults } = readSheets(files)
  if (Object.keys(draft.body).length === 0) return { ok: false, faults }
  const checked = rateTableSchema.safeParse(draft.body)
  const told = [
    ...faults,
    ...(business ? fixedFaults(draft, business) : []),
    ...(photos ? photoFaults(draft, photos) : []),
  ]
  const found = [
    ...told,
    ...(checked.success ? unstorableFaults(draft) : schemaFaults(checked.error.issues, draft, told)),
  ]
  if (found.length === 0 && checked.success) return { ok: true, table: checked.data }
  return { ok: false, faults: inOrder(found) }
}

function fixedFaults(draft: Draft, business: Pick<RateTable, 'units' | 'currency'>): SheetFault[] {
  return (['units', 'currency'] as const).flatMap(name => {
    const place = draft.placeOf(name)
    if (!place || draft.body[name] === business[name]) return []
    const message = `“${place.text}”: stays ${business[name]}, as the business is set up`
    return [{ file: place.file, row: place.row, column: place.column, message }]
  })
}

function photoFaults(draft: Draft, photos: ReadonlySet<string>): SheetFault[] {
  return draft.list('finishes').flatMap((finish, index) => {
    const { photo } = finish as { photo: unknown }
    if (typeof photo !== 'string' || photos.has(photo)) return []
    const { file, row, column, text } = draft.placeOf(`finishes.${index}.photo`)!
    return [{ file, row, column, message: `“${shortened(text)}”: no photo of that name is kept` }]
  })
}

// The database keeps any text but one with the character NUL.
function unstorableFaults(draft: Draft): SheetFault[] {
  return draft
    .placesWhere(({ text }) => text.includes('\0'))
    .map(({ file, row, column }) => ({ file, row, column, message: 'holds a character that can’t be kept' }))
}

// Where something was told already it says more than the schema's word.
function schemaFaults(issues: z.core.$ZodIssue[], draft: Draft, told: SheetFault[]): SheetFault[] {
  const placeOf = ({ file, row, column }: SheetFault) => JSON.stringify([file, row, column])
  const taken = new Set(told.map(placeOf))
  return issues
    .map(issue => faultOf(issue, draft))
    .filter(fault => !taken.has(placeOf(fault)) && taken.add(placeOf(fault)))
}

function faultOf(issue: z.core.$ZodIssue, draft: Draft): SheetFault {
  const path = issue.path.map(String).join('.')
  const place = draft.placeOf(path) ?? { file: allSheets[0]!.file, row: 1, column: path, text: '' }
  const message = `${place.text === '' ? 'empty' : `“${shortened(place.text)}”`}: ${issueInWords(issue)}`
  return { file: place.file, row: place.row, column: place.column, message }
}

function shortened(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text
}

/** What zod says is wrong, in words that fit after a colon. */
export function issueInWords(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_value':
      return `one of ${issue.values.join(', ')}`
    case 'invalid_type':
      return issue.expected === 'boolean' ? 'yes or no' : 'must be there'
    case 'too_small':
      return 'must be there'
    case 'too_big':
      return `at most ${issue.maximum} characters`
    default:
      return issue.message
  }
}

function inOrder(faults: SheetFault[]): SheetFault[] {
  const order = allSheets.map(({ file }) => file)
  return faults.sort((a, b) => order.indexOf(a.file) - order.indexOf(b.file) || a.row - b.row)
}
