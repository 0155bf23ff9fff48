import type { Kind } from '../../estimate/table/row.ts'
import type { Row } from '../../estimate/table/rows.ts'
import { cellOf } from './cells.ts'
import type { Field } from './rows.ts'

/** The column of a figure of the catalogue. */
export function fieldOf(row: Row): Field {
  const { name, path, unit } = row
  return { name, path, cell: cellOf(row), meaning: meaningOf(row), ...(unit ? { unit } : {}) }
}

/** What a figure is, in the guide: 'Depths: least depth. Thinner brings a caution.' */
export function meaningOf({ kind, heading, label, meaning = '', options = {}, empty }: Row): string {
  const words = Object.entries(options).map(([word, says]) =>
    says === word.replaceAll('-', ' ') ? word : `${word} (${says})`,
  )
  const may: Partial<Record<Kind, string>> = {
    yes: ': yes or no',
    slugs: ': slugs, the closest first',
    codes: ': codes of cautions.csv',
    choice: words[0] && `: ${words.join(', ')}`,
  }
  const called = heading ? `${heading}: ${label.charAt(0).toLowerCase()}${label.slice(1)}` : label
  const open = empty && !meaning.includes('Empty') ? 'Empty: not known.' : ''
  return [`${called}${may[kind] ?? ''}.`, meaning, open].filter(Boolean).join(' ')
}

/** Columns of several kinds of entry: of one name there is one, with the units and meanings of all. */
export function sharedFields(rows: Row[]): Field[] {
  const fields = new Map<string, Field>()
  for (const field of rows.map(fieldOf)) {
    const before = fields.get(field.name)
    fields.set(field.name, {
      ...field,
      ...(before?.unit ? { unit: joined(before.unit, field.unit!, ', ') } : {}),
      meaning: before ? joined(before.meaning, field.meaning, ' ') : field.meaning,
    })
  }
  return [...fields.values()]
}

function joined(before: string, more: string, between: string): string {
  return before.includes(more) ? before : `${before}${between}${more}`
}
