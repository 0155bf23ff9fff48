import type { Kind } from '../../estimate/table/row.ts'
import type { Row } from '../../estimate/table/rows.ts'
import { cellOf } from './cells.ts'
import type { Field } from './rows.ts'

/** The column of a figure of the catalogue. */
export function fieldOf(row: Row): Field {
  const { name, path, unit, was } = row
  return {
    name,
    path,
    cell: cellOf(row),
    meaning: meaningOf(row),
    ...(unit ? { unit } : {}),
    ...(was ? { was } : {}),
  }
}

/** What a figure is, in the guide: 'Depths: least depth. Thinner brings a caution.' */
export function meaningOf({ kind, heading, label, meaning = '', inFiles, options = {}, empty }: Row): string {
  const words = Object.entries(options).map(([word, says]) =>
    says === word.replaceAll('-', ' ') ? word : `${word} (${says})`,
  )
  const may: Partial<Record<Kind, string>> = {
    yes: ': yes or no',
    slugs: ': slugs, the closest first, with spaces between',
    codes: ': codes of cautions.csv, with spaces between',
    choice: words[0] && `: ${words.join(', ')}`,
  }
  const called = heading ? `${heading}: ${label.charAt(0).toLowerCase()}${label.slice(1)}` : label
  const open = empty && !meaning.includes('Empty') ? 'Empty: not known.' : ''
  return [`${called}${may[kind] ?? ''}.`, meaning, inFiles, open].filter(Boolean).join(' ')
}

/** Columns of several kinds of entry, or of several rows: of one name there is one, with the units and meanings of all. */
export function sharedFields(rows: Row[]): Field[] {
  return [...Map.groupBy(rows.map(fieldOf), ({ name }) => name).values()].map(alike => {
    const units = distinct(alike.map(({ unit }) => unit))
    const meaning = distinct(alike.map(({ meaning }) => meaning)).join(' ')
    return { ...alike[0]!, meaning, ...(units.length > 0 ? { unit: units.join(', ') } : {}) }
  })
}

function distinct(texts: (string | undefined)[]): string[] {
  return [...new Set(texts)].filter(text => text !== undefined)
}
