import type { z } from 'zod'
import { cautionsSchema } from '../../estimate/ballpark/caution-figures.ts'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { allFiles } from './all-files.ts'
import { readFiles } from './read-files.ts'
import type { CsvFault } from './rows.ts'
import type { TableParts } from './table-parts.ts'

export type FromFiles = { ok: true; table: RateTable } | { ok: false; faults: CsvFault[] }

/**
 * Reads a rate table from its CSV files, by their names; what is wrong is told with file, row and column, all at once
 * as far as it can be. `business` has the units and currency, which files can't change; `photos` are the names of
 * those that are kept.
 */
export function tableFromFiles(
  files: Record<string, string>,
  business?: Pick<RateTable, 'units' | 'currency'>,
  photos?: ReadonlySet<string>,
): FromFiles {
  const { parts, faults } = readFiles(files)
  if (Object.keys(parts.body).length === 0) return { ok: false, faults }
  const checked = cautionsSchema.safeParse(parts.body)
  const told = [
    ...faults,
    ...(business ? fixedFaults(parts, business) : []),
    ...(photos ? photoFaults(parts, photos) : []),
  ]
  const found = [
    ...told,
    ...(checked.success ? unstorableFaults(parts) : schemaFaults(checked.error.issues, parts, told)),
  ]
  if (found.length === 0 && checked.success) return { ok: true, table: checked.data }
  return { ok: false, faults: inOrder(found) }
}

function fixedFaults(parts: TableParts, business: Pick<RateTable, 'units' | 'currency'>): CsvFault[] {
  return (['units', 'currency'] as const).flatMap(name => {
    const place = parts.placeOf(name)
    if (!place || parts.body[name] === business[name]) return []
    const message = `“${place.text}”: stays ${business[name]}, as the business is set up`
    return [{ file: place.file, row: place.row, column: place.column, message }]
  })
}

function photoFaults(parts: TableParts, photos: ReadonlySet<string>): CsvFault[] {
  return parts.list('finishes').flatMap((finish, index) => {
    const { photo } = finish as { photo: unknown }
    if (typeof photo !== 'string' || photos.has(photo)) return []
    const { file, row, column, text } = parts.placeOf(`finishes.${index}.photo`)!
    return [{ file, row, column, message: `“${shortened(text)}”: no photo of that name is kept` }]
  })
}

// The database keeps any text but one with the character NUL.
function unstorableFaults(parts: TableParts): CsvFault[] {
  return parts
    .placesWhere(({ text }) => text.includes('\0'))
    .map(({ file, row, column }) => ({ file, row, column, message: 'holds a character that can’t be kept' }))
}

// Where something was told already it says more than the schema's word.
function schemaFaults(issues: z.core.$ZodIssue[], parts: TableParts, told: CsvFault[]): CsvFault[] {
  const placeOf = ({ file, row, column }: CsvFault) => JSON.stringify([file, row, column])
  const taken = new Set(told.map(placeOf))
  return issues
    .map(issue => faultOf(issue, parts))
    .filter(fault => !taken.has(placeOf(fault)) && taken.add(placeOf(fault)))
}

function faultOf(issue: z.core.$ZodIssue, parts: TableParts): CsvFault {
  const path = issue.path.map(String).join('.')
  const place = parts.placeOf(path) ?? { file: allFiles[0]!.file, row: 1, column: path, text: '' }
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

function inOrder(faults: CsvFault[]): CsvFault[] {
  const order = allFiles.map(({ file }) => file)
  return faults.sort((a, b) => order.indexOf(a.file) - order.indexOf(b.file) || a.row - b.row)
}
