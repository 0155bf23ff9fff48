import type { z } from 'zod'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import type { Kind } from '../../estimate/table/row.ts'
import { ownRows, partAt, type Row } from '../../estimate/table/rows.ts'
import { startOf } from '../../estimate/table/values.ts'
import { once } from '../../lib/once.ts'
import {
  anyText,
  choice,
  colour,
  type Entry,
  figure,
  figures,
  orNone,
  percent,
  prices,
  text,
  textOrAbsent,
  texts,
  tick,
} from './entries.ts'
import type { FieldsPart, FormField, ListPart } from './section.ts'

// What isn't here is given when the thing is made, or has a form of its own.
const ENTRIES: Partial<Record<Kind, Entry>> = {
  figure,
  share: percent,
  text,
  note: anyText,
  group: text,
  colour,
  yes: tick,
  figures,
  prices,
  postcodes: texts,
  codes: text,
}

/** The field of a form that asks for a figure of the catalogue; none where no form does. */
export const formField = once((row: Row): FormField[] => {
  const { path, label, kind, unit, meaning, onForms, options = {}, empty } = row
  const hint = [meaning, onForms].filter(Boolean).join(' ')
  const entry = kind === 'choice' ? choice(...Object.entries(options)) : ENTRIES[kind]
  if (!entry) return []
  return [
    {
      path,
      label,
      entry: empty === 'null' ? orNone(entry) : empty === 'absent' ? textOrAbsent : entry,
      ...(unit ? { unit: unit === 'share' ? '%' : unit } : {}),
      ...(hint ? { hint } : {}),
      ...(kind === 'codes'
        ? { ticks: Object.entries(options).map(([value, says]) => ({ value, label: says })) }
        : {}),
    },
  ]
})

/**
 * Figures as blocks of fields, each under the heading that its row says: the one without a heading first, the others as
 * they come. `fieldsOf` makes the fields of a row.
 */
export function blocksOf(rows: Row[], fieldsOf: (row: Row) => FormField[] = formField): FieldsPart[] {
  const byHeading = Map.groupBy(rows, ({ heading = '' }) => heading)
  const { '': first = [], ...others } = Object.fromEntries(byHeading)
  return [['', first] as const, ...Object.entries(others)]
    .map(([heading, under]) => ({ ...(heading ? { heading } : {}), fields: under.flatMap(fieldsOf) }))
    .filter(({ fields }) => fields.length > 0)
}

/** Blocks with those folded away whose heading has a sentence of what they would add. */
export function foldedBlocks(
  blocks: FieldsPart[],
  adds: Record<string, string>,
  start: unknown,
): FieldsPart[] {
  return blocks.map(block => {
    const said = block.heading && adds[block.heading]
    return said ? { ...block, folded: { adds: said, start } } : block
  })
}

/** The blocks of all figures that say that they are of a section. */
export function sectionBlocks(section: string, figures: z.ZodObject): FieldsPart[] {
  return blocksOf(ownRows(figures).filter(row => row.section === section))
}

/** A list of the table, each of whose entries has its figures for fields; a new one starts as it does in the table's units. */
export function listOf(
  list: string,
  one: string,
  { units }: Pick<RateTable, 'units'>,
  figures: z.ZodObject,
  heading?: string,
  adds?: string,
): ListPart {
  const entry = partAt(figures, `${list}.*`)
  return {
    list,
    one,
    ...(heading ? { heading } : {}),
    ...(adds ? { adds } : {}),
    fields: () => ownRows(entry).flatMap(formField),
    blank: (startOf(entry, units) ?? {}) as Record<string, unknown>,
    ordered: true,
  }
}
