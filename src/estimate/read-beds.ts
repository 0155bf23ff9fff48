import { type Bed, type BedTold, type Fault, type Job, type ShapeName, shapeNames } from './bed.ts'
import { Decimal, zero } from './decimal.ts'
import { readDepth } from './lengths.ts'
import type { Finish, Measuring, Planted, RateTable } from './rate-table.ts'
import { readSizes } from './read-sizes.ts'
import { choiceOf, fieldOf, type Notes, notes, textOf } from './told-fields.ts'
import { unitSystem } from './units.ts'

export const MOST_BEDS = 40
export const MOST_ALIKE = 99

const ways: Measuring[] = ['tape', 'paces', 'eye']
const coverings: Planted[] = ['open', 'half', 'full']
const layers = ['bare', 'thin', 'fair', 'thick', 'unsure'] as const

/** Echoes are by field; readable has a null for each bed that can't be understood. */
export type ToldReading =
  | { ok: true; job: Job; echoes: Record<string, string> }
  | { ok: false; faults: Fault[]; echoes: Record<string, string>; readable: (Bed | null)[] }

/** Reads beds as typed in a form or sent as JSON; never throws, whatever is sent. Every fault has its field. */
export function readTold(body: unknown, table: RateTable): ToldReading {
  const found = notes()
  const beds = readList(fieldOf(body, 'beds'), found).map((bed, index) =>
    readBed(bed, `beds.${index}`, table, found),
  )
  const extras = readExtras(fieldOf(body, 'extras'), table, found)
  const postcode = readPostcode(fieldOf(body, 'postcode'), found)
  const { faults, echoes } = found
  if (faults.length > 0) return { ok: false, faults, echoes, readable: beds }
  return { ok: true, job: { beds: beds.filter(bed => bed !== null), extras, postcode }, echoes }
}

function readList(beds: unknown, found: Notes): unknown[] {
  if (!Array.isArray(beds) || beds.length === 0) {
    found.fault('beds', 'fault.beds-missing')
    return []
  }
  if (beds.length > MOST_BEDS) found.fault('beds', 'fault.beds-too-many', { most: String(MOST_BEDS) })
  return beds.slice(0, MOST_BEDS)
}

function readBed(told: unknown, field: string, table: RateTable, found: Notes): Bed | null {
  const before = found.faults.length
  const at = (name: string) => `${field}.${name}`
  const shape = choiceOf(fieldOf(told, 'shape'), shapeNames, at('shape'), 'fault.shape', found)
  const sizes = shape && readSizes(shape, fieldOf(told, 'sizes'), at('sizes'), table, found)
  const count = readCount(fieldOf(told, 'count'), at('count'), found)
  const measuredBy = choiceOf(fieldOf(told, 'measuredBy'), ways, at('measuredBy'), 'fault.measured-by', found)
  const planted = choiceOf(fieldOf(told, 'planted'), coverings, at('planted'), 'fault.planted', found)
  const lying = readLying(fieldOf(told, 'lying'), at('lying'), table, found)
  const finish = readFinish(fieldOf(told, 'finish'), at('finish'), table, found)
  const depth = readTarget(fieldOf(told, 'depth'), at('depth'), table, found)
  if (found.faults.length > before || !shape || !sizes || !measuredBy || !planted || !lying || !finish)
    return null
  return {
    shape,
    sizes,
    cutOuts: [],
    count,
    measuredBy,
    planted,
    lying,
    work: 'top-up',
    finish,
    depth: depth ?? new Decimal(finish.depth.usual),
    usual: depth === null,
    noEdge: zero,
    carry: zero,
    stairs: 0,
    extras: [],
    told: asTold(told, shape),
  }
}

function readCount(told: unknown, field: string, found: Notes): number {
  const text = textOf(told)?.trim() ?? ''
  const count = /^\d{1,4}$/.test(text) ? Number(text) : 0
  if (count < 1 || count > MOST_ALIKE) found.fault(field, 'fault.count', { most: String(MOST_ALIKE) })
  return count
}

function readLying(told: unknown, field: string, table: RateTable, found: Notes): Bed['lying'] | null {
  const text = textOf(told)?.trim() ?? ''
  const name = layers.find(layer => layer === text.toLowerCase())
  if (name) return { m: new Decimal(table.lying[name].m), s: new Decimal(table.lying[name].s) }
  const reading = readDepth(text, unitSystem(table.units), zero)
  if (!reading.ok) {
    const key = reading.key === 'fault.depth-absurd' ? reading.key : 'fault.lying'
    found.fault(field, key, reading.params)
    return null
  }
  found.echoes[field] = reading.echo
  return { m: reading.value, s: reading.spread ?? new Decimal(table.lyingTold) }
}

function readFinish(told: unknown, field: string, table: RateTable, found: Notes): Finish | null {
  const slugs = table.finishes.map(finish => finish.slug)
  const slug = choiceOf(told, slugs, field, 'fault.finish', found)
  return table.finishes.find(finish => finish.slug === slug) ?? null
}

// Empty or absent: the finish's usual depth.
function readTarget(told: unknown, field: string, table: RateTable, found: Notes): Decimal | null {
  const text = told === undefined || told === null ? '' : textOf(told)
  if (text?.trim() === '') return null
  const reading = readDepth(text ?? '?', unitSystem(table.units))
  if (reading.ok) found.echoes[field] = reading.echo
  else found.fault(field, reading.key, reading.params)
  return reading.ok ? reading.value : null
}

function readExtras(told: unknown, table: RateTable, found: Notes) {
  const asked = told === undefined || told === null || told === '' ? [] : Array.isArray(told) ? told : [told]
  if (asked.length > 0 && table.extras.length === 0) found.fault('extras.0', 'fault.no-extras')
  if (asked.length > 100) found.fault('extras', 'fault.too-many-extras')
  if (table.extras.length === 0) return []
  const slugs = asked.slice(0, 100).map((slug, index) =>
    choiceOf(
      slug,
      table.extras.map(one => one.slug),
      `extras.${index}`,
      'fault.extra',
      found,
    ),
  )
  return table.extras.filter(extra => slugs.includes(extra.slug))
}

function readPostcode(told: unknown, found: Notes): string {
  const text = told === undefined || told === null ? '' : textOf(told)?.trim()
  if (text === undefined || text.length > 20) {
    found.fault('postcode', 'fault.postcode')
    return ''
  }
  return text
}

function asTold(told: unknown, shape: ShapeName): BedTold {
  const text = (name: string) => textOf(fieldOf(told, name)) ?? ''
  const sizes = fieldOf(told, 'sizes')
  const names = typeof sizes === 'object' && sizes !== null ? Object.keys(sizes) : []
  return {
    shape,
    sizes: Object.fromEntries(names.map(name => [name, textOf(fieldOf(sizes, name)) ?? ''])),
    count: text('count'),
    measuredBy: text('measuredBy'),
    planted: text('planted'),
    lying: text('lying'),
    finish: text('finish'),
    depth: text('depth'),
  }
}
