import type { Name } from '../../estimate/table/names.ts'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { unitOf, withSigns } from '../../estimate/units/unit-of.ts'
import { keyOfEntry } from './entry-keys.ts'
import { fieldValues } from './fields.ts'
import { indexesOf } from './list-form.ts'
import type { FieldsPart, FormField, ListPart, Section } from './section.ts'
import { isList, kindOf } from './section.ts'
import { entriesIn } from './section-form.ts'

export interface FieldView {
  how: 'field' | 'tick' | 'ticks'
  name: string
  label: string
  hint: string | null
  suffix: string | null
  options: { value: string; label: string }[] | null
  multiline: boolean
  optional: boolean
  figure: boolean
}

/** Fields under one heading, or of one entry of a list. */
export interface BlockView {
  heading: string | null
  /** What it would add, where it is folded away. */
  folds: { adds: string; open: boolean } | null
  about: string | null
  /** Of an entry: what it is called, and the names of its fields for what it was, its place, its kind and taking it out. */
  entry: {
    legend: string
    says: string | null
    was: string | null
    place: string | null
    kind: string | null
    out: string | null
  } | null
  fields: FieldView[]
}

export interface SectionView {
  blocks: BlockView[]
  /** The kinds of entry that can be added, where there are any. */
  kinds: [kind: string, label: string][]
  values: Record<string, string>
  elsewhere: Section['elsewhere'] | null
}

/** A section's form as its page shows it; `wantedKind` adds a block for a new entry of that kind. */
export function viewSection(
  section: Section,
  table: RateTable,
  values: Record<string, string>,
  shown: { again: boolean; wantedKind?: string | undefined },
): SectionView {
  const all = { ...values }
  const kinds: SectionView['kinds'] = []
  const blocks = section.parts.flatMap((part): BlockView[] => {
    if (!isList(part)) {
      const fields = part.fields.map(field => viewField(field, '', table))
      return [
        {
          heading: part.heading ?? null,
          folds: foldsOf(part, all),
          about: part.about ?? null,
          entry: null,
          fields,
        },
      ]
    }
    kinds.push(...(part.kinds ?? []))
    if (!shown.again) addBlank(part, all, shown.wantedKind)
    const entries = new Map(entriesIn(section, part, table).map(entry => [keyOfEntry(entry), entry]))
    return indexesOf(part.list, all).map((index, row) => viewEntry(part, index, row, table, entries, all))
  })
  const besides = (section.besides ?? []).map(field => viewField(field, '', table))
  const beside = { heading: null, folds: null, about: null, entry: null, fields: besides }
  if (besides.length > 0) blocks[section.instead ? 'unshift' : 'push'](beside)
  return { blocks, kinds, values: all, elsewhere: section.elsewhere ?? null }
}

function foldsOf({ fields, folded }: FieldsPart, all: Record<string, string>): BlockView['folds'] {
  if (!folded) return null
  const start = Object.entries(fieldValues(fields, folded.start, ''))
  return { adds: folded.adds, open: start.some(([name, value]) => (all[name] ?? '') !== value) }
}

function addBlank(part: ListPart, all: Record<string, string>, wantedKind: string | undefined): void {
  if (part.fixed) return
  const kind = part.kinds?.find(([one]) => one === wantedKind)?.[0]
  if (part.kinds && !kind) return
  const prefix = `${part.list}.${(indexesOf(part.list, all).at(-1) ?? -1) + 1}.`
  Object.assign(all, fieldValues(part.fields(kind), part.blank, prefix))
  if (kind) all[`${prefix}kind`] = kind
}

function viewEntry(
  part: ListPart,
  index: number,
  row: number,
  table: RateTable,
  entries: Map<string, Record<string, unknown>>,
  all: Record<string, string>,
): BlockView {
  const prefix = `${part.list}.${index}.`
  const kind = kindOf(part, all[`${prefix}kind`])
  if (kind) all[`${prefix}kind`] = kind
  const was = all[`${prefix}was`]
  const isNew = was === undefined
  const isGone = !isNew && !entries.has(was)
  const before = isNew ? undefined : entries.get(was)
  const fixed = part.fixed ? (before?.name as Name | undefined)?.en : undefined
  const thing = before && part.named ? part.named(before) : fixed
  return {
    heading: row === 0 ? (part.heading ?? null) : null,
    folds: row === 0 && isNew && part.adds ? { adds: part.adds, open: false } : null,
    about: row === 0 ? (part.about ?? null) : null,
    entry: {
      legend: thing ?? legendOf(part, row, isNew, isGone),
      says: (before && part.says?.(before)) ?? null,
      was: isNew ? null : `${prefix}was`,
      place: isNew || !part.ordered ? null : `${prefix}place`,
      kind: kind ? `${prefix}kind` : null,
      out: isNew ? null : `${prefix}out`,
    },
    fields: part.fields(kind).map(field => viewField(field, prefix, table)),
  }
}

function legendOf({ one }: ListPart, row: number, isNew: boolean, isGone: boolean): string {
  if (isNew) return `Another ${one.toLowerCase()}`
  return isGone ? `${one} ${row + 1}: changed or removed after you opened this page` : `${one} ${row + 1}`
}

function viewField(field: FormField, prefix: string, table: RateTable): FieldView {
  const { path, label, entry, unit, hint, ticks } = field
  return {
    how: ticks ? 'ticks' : entry.tick ? 'tick' : 'field',
    name: `${prefix}${path}`,
    label: unitsIn(label, table),
    hint: hint ? unitsIn(hint, table) : null,
    suffix: unit ? unitsIn(unit, table) : null,
    options: ticks ?? entry.options ?? null,
    multiline: entry.multiline ?? false,
    optional: entry.optional ?? false,
    figure: entry.figure ?? false,
  }
}

function unitsIn(template: string, table: RateTable): string {
  return withSigns(unitOf(template, table))
}
