import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { COLUMNS, type ColumnName, type Matched } from './columns.ts'
import { textOf } from './records.ts'

/** The largest file, in bytes. */
const LARGEST_FILE = 2_000_000
/** What a form may hold with it, so that one a little too large is refused beside its field. */
export const UPLOAD_LIMIT = 4_000_000

/** Reads the file that somebody chose, as text. */
export async function readFileForm(fields: FormFields): Promise<FormReading<{ name: string; text: string }>> {
  const file = fields.file('file')
  const text = file && file.size <= LARGEST_FILE ? textOf(new Uint8Array(await file.arrayBuffer())) : null
  if (!file) fields.fault('file', 'Choose your file.')
  else if (file.size > LARGEST_FILE)
    fields.fault('file', 'That’s more than 2 MB. Split it into smaller files.')
  else if (text === null)
    fields.fault('file', 'That isn’t a CSV file. In your spreadsheet, save or download it as CSV.')
  const name = (file?.name ?? '').replace(/[^\p{L}\p{N}\p{P} ]/gu, '').slice(0, 100) || 'file.csv'
  return fields.reading({ name, text: text ?? '' })
}

/** The name of the field that says which column is ours. */
export function fieldFor(name: ColumnName): string {
  return `column-${name.replaceAll(' ', '-')}`
}

/** Reads which column of a file, of so many, is which of ours; each may be one of ours alone. */
export function readColumns(fields: FormFields, header: string[]): FormReading<Matched> {
  const matched: Matched = {}
  const labels = new Map<number, string>()
  for (const { name, label } of COLUMNS) {
    const field = fieldFor(name)
    const typed = fields.text(field)
    if (typed === '') continue
    const at = /^\d{1,3}$/.test(typed) ? Number(typed) : -1
    if (!(at >= 0 && at < header.length)) fields.fault(field, 'Pick one of the columns.')
    else if (labels.has(at)) fields.fault(field, `You picked that column for “${labels.get(at)}” already.`)
    else {
      matched[name] = at
      labels.set(at, label)
    }
  }
  if (matched.name === undefined) fields.fault(fieldFor('name'), 'Say which column has the name.')
  return fields.reading(matched)
}
