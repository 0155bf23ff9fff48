import type { z } from 'zod'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import type { Entry } from './entries.ts'

/** One field of a section's form; path from what the part is about, 'depth.least'. unit is filled in by `unitOf`. */
export interface FormField {
  path: string
  label: string
  entry: Entry
  unit?: string
  hint?: string
  /** Codes to tick, the value being the list of those ticked; the entry isn't asked then. */
  ticks?: { value: string; label: string }[]
}

/** Says what more fields would add: they are folded away while they are as in `start`, which stands for what the section is about. */
export interface Folded {
  adds: string
  start: unknown
}

/** Fields under a heading; their paths begin where the section does. */
export interface FieldsPart {
  heading?: string
  folded?: Folded
  about?: string
  fields: FormField[]
}

/** A list of the table with a block of fields for each entry, and one more to add another. */
export interface ListPart {
  list: string
  heading?: string
  /** What entries would add: folded away while there are none. */
  adds?: string
  about?: string
  /** What one entry is called: 'Carrier'. */
  one: string
  /** The kinds that an entry may be of, where there are any; a new one is asked for by its kind. */
  kinds?: [kind: string, label: string][]
  fields(kind: string | undefined): FormField[]
  /** What a new entry has besides its fields. */
  blank: Record<string, unknown>
  /** What an entry that is there is called, where that isn't `one` and its number. */
  named?(entry: Record<string, unknown>): string
  /** What is said of an entry that is there, before its fields. */
  says?(entry: Record<string, unknown>): string | null
  /** Whether entries can be put in another order. */
  ordered: boolean
  /** Whether entries are made elsewhere: here they are only put in order and taken out. */
  fixed?: boolean
  /** What is read of one entry, put right; 'fault' tells what can't be. */
  mend?(
    entry: Record<string, unknown>,
    fault: (path: string, message: string) => void,
    table: RateTable,
  ): void
}

export type Part = FieldsPart | ListPart

/** A small form of the draft, saved by itself. */
export interface Section {
  key: string
  title: string
  /** What it holds, in a line. */
  holds: string
  /** What it would add, or what it is for. */
  adds: string
  /** Where in the table its paths begin: '' or 'finishes.3'. */
  base: string
  parts: Part[]
  /** Where more of it is set, on a page of another kind. */
  elsewhere?: { path: string; words: string }
  /** Sections of its own under it, such as the packs of a finish. */
  under?: boolean
  /** The table as this form needs it to be filled in, where a part of it may be missing. */
  open?(table: RateTable): RateTable
  /** What the table is checked by, where that is more than by what any table is. */
  schema?: z.ZodType<RateTable>
  /** A table that is made without reading the fields, as when no tax is wanted. */
  instead?(table: RateTable, typed: Record<string, string>): RateTable | undefined
  /** The table put right after its fields were read; `typed` has what stands beside the table's own fields. */
  close?(
    table: RateTable,
    typed: Record<string, string>,
    fault: (name: string, message: string) => void,
    before: RateTable,
  ): RateTable
  /** Fields of the form that aren't the table's own, and their values. */
  besides?: FormField[]
  besideValues?: Record<string, string>
}

export function isList(part: Part): part is ListPart {
  return 'list' in part
}

/** The kind of entry that was typed; the first where it is none of them, and none where entries have no kinds. */
export function kindOf({ kinds }: ListPart, typed: string | undefined): string | undefined {
  return kinds?.find(([kind]) => kind === typed)?.[0] ?? kinds?.[0]?.[0]
}
