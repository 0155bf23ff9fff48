import type { RateTable } from '../../estimate/table/rate-table.ts'
import { rateTableSchema } from '../../estimate/table/rate-table-schema.ts'
import { valueAt } from '../../estimate/table/rows.ts'
import type { Errors, FormReading, Typed } from '../../http/posted.ts'
import { keyOfEntry } from './entry-keys.ts'
import { tableFaults } from './fault-words.ts'
import { fieldValues, readFields } from './fields.ts'
import { readList } from './list-form.ts'
import type { FormField, ListPart, Section } from './section.ts'
import { isList } from './section.ts'

/** Every field of the form that is there whatever is in the table. */
function plainFields(section: Section): FormField[] {
  return section.parts.flatMap(part => (isList(part) ? [] : part.fields))
}

/** The values of a section's form, by field name. */
export function sectionValues(section: Section, table: RateTable): Record<string, string> {
  const from = rootOf(section, section.open?.(table) ?? table)
  const values = fieldValues(plainFields(section), from, '')
  for (const part of section.parts.filter(isList)) {
    entriesIn(section, part, table).forEach((entry, index) => {
      Object.assign(values, entryValues(part, entry, index))
    })
  }
  return { ...values, ...section.besideValues }
}

/** The values of one entry of a list as the form shows it under a number. */
export function entryValues(
  part: ListPart,
  entry: Record<string, unknown>,
  index: number,
): Record<string, string> {
  const prefix = `${part.list}.${index}.`
  const kind = entry.kind as string | undefined
  return {
    ...fieldValues(part.fields(kind), entry, prefix),
    [`${prefix}was`]: keyOfEntry(entry),
    ...(part.ordered ? { [`${prefix}place`]: String(index + 1) } : {}),
    ...(kind ? { [`${prefix}kind`]: kind } : {}),
  }
}

/** The entries of a section's list as a table has them. */
export function entriesIn(section: Section, part: ListPart, table: RateTable): Record<string, unknown>[] {
  return valueAt(rootOf(section, section.open?.(table) ?? table), part.list) as Record<string, unknown>[]
}

/** Reads a section's form into the table; every fault stands beside its field, '' where it is of the whole. */
export function readSection(
  section: Section,
  table: RateTable,
  typed: Typed,
  schema = section.schema ?? rateTableSchema,
): FormReading<RateTable> {
  const without = section.instead?.(table, typed)
  if (without) return { ok: true, values: schema.parse(without) }
  const errors: Errors = {}
  const fault = (name: string, message: string) => {
    errors[name] ??= message
  }
  let changed = structuredClone(section.open?.(table) ?? table)
  const root = rootOf(section, changed)
  readFields(plainFields(section), typed, '', fault, root)
  const places = new Map<string, string>()
  for (const part of section.parts.filter(isList)) readList(part, root, typed, fault, places, table)
  changed = section.close?.(changed, typed, fault, table) ?? changed
  if (Object.keys(errors).length > 0) return { ok: false, typed, errors }
  const checked = schema.safeParse(changed)
  if (checked.success) return { ok: true, values: checked.data }
  const faults = tableFaults(section, checked.error.issues, places, typed, changed)
  return { ok: false, typed, errors: faults }
}

function rootOf(section: Section, table: RateTable): unknown {
  return section.base === '' ? table : valueAt(table, section.base)
}
