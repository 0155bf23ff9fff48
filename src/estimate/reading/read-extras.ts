import type { Bed } from '../job/bed.ts'
import type { FaultKey } from '../job/fault-keys.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'
import { asTyped, choiceOf, type Notes } from './told-fields.ts'

const MOST_EXTRAS = 100

/** Reads a list of extras by their slugs, of the whole job or of one bed; of one group there may be one at most. */
export function readExtras(told: unknown, field: string, table: RateTable, found: Notes): Extra[] {
  const asked = askedFor(told)
  if (asked.length > 0 && table.extras.length === 0) found.fault(`${field}.0`, 'fault.no-extras')
  if (asked.length > MOST_EXTRAS) found.fault(field, 'fault.too-many-extras')
  if (table.extras.length === 0) return []
  const known = table.extras.map(extra => extra.slug)
  const taken: Extra[] = []
  for (const [index, slug] of asked.slice(0, MOST_EXTRAS).entries()) {
    const at = `${field}.${index}`
    const chosen = choiceOf(slug, known, at, 'fault.extra', found)
    const extra = table.extras.find(one => one.slug === chosen)
    if (!extra) continue
    refuseBeside(extra, taken, at, 'fault.extra-group', found)
    taken.push(extra)
  }
  return table.extras.filter(extra => taken.includes(extra))
}

/** The slugs of a list of extras as told, in its order. */
export function slugsIn(told: unknown): string[] {
  return askedFor(told).map(slug => asTyped(slug)?.trim() ?? '')
}

// One alone, or nothing, is taken too.
function askedFor(told: unknown): unknown[] {
  if (told === undefined || told === null || told === '') return []
  return Array.isArray(told) ? told : [told]
}

/**
 * The bed with the whole job's extras in view: its own may be of no group that one of them is of, and where the old
 * material is taken out nothing stays to be topped up. `asked` are its own as they were told. Null, and faults, when they
 * can't be together.
 */
export function besideJobExtras(
  bed: Bed,
  asked: string[],
  field: string,
  job: Extra[],
  found: Notes,
): Bed | null {
  const before = found.faults.length
  for (const extra of bed.extras) {
    const index = asked.indexOf(extra.slug)
    refuseBeside(extra, job, `${field}.extras.${index}`, 'fault.extra-job-group', found)
  }
  if (found.faults.length > before) return null
  const cleared = [...job, ...bed.extras].some(extra => extra.per === 'lying')
  return cleared ? { ...bed, work: 'new' } : bed
}

function refuseBeside(extra: Extra, others: Extra[], field: string, key: FaultKey, found: Notes): void {
  const alike = others.find(one => one.group !== null && one.group === extra.group && one.slug !== extra.slug)
  if (alike) found.fault(field, key, { extra: extra.slug, other: alike.slug })
}
