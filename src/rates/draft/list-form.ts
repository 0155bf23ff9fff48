import type { RateTable } from '../../estimate/table/rate-table.ts'
import { valueAt } from '../../estimate/table/rows.ts'
import type { Typed } from '../../http/posted.ts'
import { type Entry, keyOfEntry } from './entry-keys.ts'
import { readFields } from './fields.ts'
import type { ListPart } from './section.ts'
import { kindOf } from './section.ts'

/** Of a posted form, the numbers of a list's entries that were shown: 0, 1, 2 … */
export function indexesOf(list: string, typed: Typed): number[] {
  const found = Object.keys(typed).flatMap(name => {
    const number = name.startsWith(`${list}.`) && /^\d{1,3}(?=\.)/.exec(name.slice(list.length + 1))?.[0]
    return number ? [Number(number)] : []
  })
  return [...new Set(found)].sort((a, b) => a - b)
}

/**
 * Reads the entries of a list into what holds it, each over the one that it was filled in from. One with nothing filled
 * in, or ticked to be taken out, is left out; the others go by their places. `places` gets, for each path in the table, the name of the form's fields for it.
 */
export function readList(
  part: ListPart,
  root: unknown,
  typed: Typed,
  fault: (name: string, message: string) => void,
  places: Map<string, string>,
  table: RateTable,
): void {
  const { list } = part
  const before = valueAt(root, list) as Entry[]
  const read = indexesOf(list, typed).flatMap(index => {
    const prefix = `${list}.${index}.`
    const kept = before.find(entry => keyOfEntry(entry) === typed[`${prefix}was`])
    if (typed[`${prefix}out`] === 'yes' || (part.fixed && !kept)) return []
    const kind = (kept?.kind as string | undefined) ?? kindOf(part, typed[`${prefix}kind`])
    const fields = part.fields(kind)
    const shown = kept ? {} : part.blank
    const isEmpty = fields.every(
      ({ path, entry, ticks }) =>
        ticks !== undefined ||
        entry.tick ||
        entry.options ||
        (typed[`${prefix}${path}`] ?? '').trim() === entry.write(valueAt(shown, path)),
    )
    if (isEmpty && !(part.fixed && kept)) return []
    const entry: Entry = structuredClone(kept ?? { ...part.blank, ...(kind ? { kind } : {}) })
    const at = (path: string, message: string) => fault(`${prefix}${path}`, message)
    readFields(fields, typed, prefix, fault, entry)
    part.mend?.(entry, at, table)
    return [{ entry, prefix, place: placeOf(typed[`${prefix}place`], index, at) }]
  })
  read.sort((a, b) => a.place - b.place)
  read.forEach(({ prefix }, index) => {
    places.set(`${list}.${index}.`, prefix)
  })
  before.splice(0, before.length, ...read.map(({ entry }) => entry))
}

// Who makes the fifth the second types 2: it then comes before the one that was there.
function placeOf(typed: string | undefined, index: number, fault: (path: string, message: string) => void) {
  const own = index + 1
  if (typed === undefined || typed.trim() === '') return own
  const place = Number(typed.trim())
  if (!Number.isInteger(place) || place < 0 || place > 999)
    fault('place', 'Give a whole number, 1 for the first.')
  return place < own ? place - 0.5 : place > own ? place + 0.5 : place
}
