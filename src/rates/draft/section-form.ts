import type { RateTable } from '../../estimate/table/rate-table.ts'
import { rateTableSchema } from '../../estimate/table/rate-table-schema.ts'
import { valueAt } from '../csv/sheet.ts'
import { tableFaults } from './fault-words.ts'
import { keyOfEntry, readList } from './list-form.ts'
import type { FormField, ListPart, Part, Section } from './section.ts'

/** Faults by field name, in words. */
export type Faults = Record<string, string>

export type SectionReading = { ok: true; table: RateTable } | { ok: false; errors: Faults }

export function isList(part: Part): part is ListPart {
  return 'list' in part
}

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
  typed: Record<string, string>,
): SectionReading {
  const without = section.instead?.(table, typed)
  if (without) return { ok: true, table: rateTableSchema.parse(without) }
  const errors: Faults = {}
  const fault = (name: string, message: string) => {
    errors[name] ??= message
  }
  let changed = structuredClone(section.open?.(table) ?? table)
  const root = rootOf(section, changed)
  readFields(plainFields(section), typed, '', fault, root)
  const places = new Map<string, string>()
  for (const part of section.parts.filter(isList)) readList(part, root, typed, fault, places, table)
  changed = section.close?.(changed, typed, fault, table) ?? changed
  if (Object.keys(errors).length > 0) return { ok: false, errors }
  const checked = rateTableSchema.safeParse(changed)
  if (checked.success) return { ok: true, table: checked.data }
  return { ok: false, errors: tableFaults(section, checked.error.issues, places, typed, changed) }
}

/** Reads fields into what they are of; a value that can't be read is a fault, and stays as it was. */
export function readFields(
  fields: FormField[],
  typed: Record<string, string>,
  prefix: string,
  fault: (name: string, message: string) => void,
  into: unknown,
): void {
  for (const { path, entry, ticks } of fields) {
    const name = `${prefix}${path}`
    if (ticks) {
      const isTicked = (code: string) => typed[`${name}.${code}`] === 'yes'
      const kept = ((valueAt(into, path) ?? []) as string[]).filter(isTicked)
      const added = ticks.map(({ value }) => value).filter(code => isTicked(code) && !kept.includes(code))
      put(into, path, [...kept, ...added])
      continue
    }
    const read = entry.read((typed[name] ?? '').trim())
    if ('fault' in read) fault(name, read.fault)
    else put(into, path, read.value)
  }
}

/** The values of some fields of one thing, by field name. */
export function fieldValues(fields: FormField[], from: unknown, prefix: string): Record<string, string> {
  return Object.fromEntries(
    fields.flatMap(({ path, entry, ticks }) => {
      const value = valueAt(from, path)
      return ticks
        ? ((value ?? []) as string[]).map(code => [`${prefix}${path}.${code}`, 'yes'])
        : [[`${prefix}${path}`, entry.write(value)]]
    }),
  )
}

function rootOf(section: Section, table: RateTable): unknown {
  return section.base === '' ? table : valueAt(table, section.base)
}

function put(into: unknown, path: string, value: unknown): void {
  const steps = path.split('.')
  let node = into as Record<string, unknown>
  for (const step of steps.slice(0, -1)) {
    node[step] ??= {}
    node = node[step] as Record<string, unknown>
  }
  const last = steps.at(-1)!
  if (value === undefined) delete node[last]
  else node[last] = value
}
