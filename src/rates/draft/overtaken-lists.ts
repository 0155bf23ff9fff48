import type { RateTable } from '../../estimate/table/rate-table.ts'
import { keyOfEntry } from './entry-keys.ts'
import { indexesOf } from './list-form.ts'
import type { ListPart, Section } from './section.ts'
import { isList } from './section.ts'
import { entriesIn, entryValues } from './section-form.ts'

/**
 * What was typed in a form that somebody overtook, put against the lists as they are now: what was added meanwhile stands
 * at the end, and what was taken out or changed meanwhile is ticked to be left out, to be seen and unticked. So saving
 * it again loses nothing unseen, and no tick comes to mean another entry.
 */
export function againstListsNow(
  section: Section,
  table: RateTable,
  typed: Record<string, string>,
): Record<string, string> {
  return section.parts.filter(isList).reduce((all, part) => againstListNow(section, part, table, all), typed)
}

function againstListNow(
  section: Section,
  part: ListPart,
  table: RateTable,
  typed: Record<string, string>,
): Record<string, string> {
  const now = entriesIn(section, part, table)
  const keys = new Set(now.map(keyOfEntry))
  const shown = indexesOf(part.list, typed)
  const wasOf = (index: number) => typed[`${part.list}.${index}.was`]
  const isGone = (index: number) => wasOf(index) !== undefined && !keys.has(wasOf(index)!)
  const gone = shown.filter(isGone).map(index => `${part.list}.${index}.`)
  const known = new Set(shown.map(wasOf))
  const added = now.filter(entry => !known.has(keyOfEntry(entry)))
  const next = (shown.at(-1) ?? -1) + 1
  // Of what is only put in order here nothing was typed: there is nothing to show.
  const kept = part.fixed
    ? Object.entries(typed).filter(([name]) => !gone.some(prefix => name.startsWith(prefix)))
    : [...Object.entries(typed), ...gone.map(prefix => [`${prefix}out`, 'yes'])]
  return Object.assign(
    Object.fromEntries(kept),
    ...added.map((entry, index) => entryValues(part, entry, next + index)),
  )
}
