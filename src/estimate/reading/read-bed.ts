import { Decimal, zero } from '../../lib/decimal.ts'
import type { Bed, Lying } from '../job/bed.ts'
import type { FaultKey } from '../job/fault-keys.ts'
import { shapeNames, shapeOf } from '../shapes/all-shapes.ts'
import type { Finish, LyingName, Measuring, Planted, RateTable } from '../table/rate-table.ts'
import { showDepth } from '../units/show.ts'
import { unitSystem } from '../units/units.ts'
import { type Known, knownEchoes } from './known.ts'
import type { MeasureReading } from './measure.ts'
import { readLayers } from './read-layers.ts'
import { readMore } from './read-more.ts'
import { readSizes } from './read-sizes.ts'
import { asTyped, choiceOf, fieldOf, noteReading, type ReadingNotes } from './told-fields.ts'

const MOST_ALIKE = 99

const ways: Measuring[] = ['tape', 'paces', 'eye']
const coverings: Planted[] = ['open', 'half', 'full']
const layers = ['bare', 'thin', 'fair', 'thick', 'unsure'] as const

/**
 * A table to read by. One that homeowners choose from has less: `soldOut` are finishes that nobody can pick at present,
 * `whole` is the table with everything.
 */
export type TableToRead = RateTable & { soldOut?: Finish[]; whole?: RateTable }

/**
 * Reads one bed as typed or sent; null, and faults with their fields, when anything of it can't be understood. What is
 * `known` isn't read.
 */
export function readBed(
  told: unknown,
  field: string,
  table: TableToRead,
  found: ReadingNotes,
  known: Known = {},
): Bed | null {
  const before = found.faults.length
  const at = (name: string) => `${field}.${name}`
  for (const [name, echo] of Object.entries(knownEchoes(known, unitSystem(table.units))))
    found.echoes[at(name)] = echo
  const toldShape = choiceOf(fieldOf(told, 'shape'), shapeNames(), at('shape'), 'fault.shape', found)
  const shape = toldShape && (known.outline?.shape ?? found.reader.shape(toldShape))
  const sizes =
    shape && (known.outline?.sizes ?? readSizes(shape, fieldOf(told, 'sizes'), at('sizes'), table, found))
  const count = readCount(fieldOf(told, 'count'), at('count'), found)
  const measuredBy = choiceOf(fieldOf(told, 'measuredBy'), ways, at('measuredBy'), 'fault.measured-by', found)
  const planted = choiceOf(fieldOf(told, 'planted'), coverings, at('planted'), 'fault.planted', found)
  const lying = known.lying ?? readLying(fieldOf(told, 'lying'), at('lying'), table, found)
  const finish = readFinish(fieldOf(told, 'finish'), at('finish'), table, found)
  const depth =
    known.depth === undefined ? readTarget(fieldOf(told, 'depth'), at('depth'), table, found) : known.depth
  const layers = finish
    ? (known.layers ?? readLayers(fieldOf(told, 'layers'), at('layers'), finish, layersAsked(table), found))
    : []
  const more = readMore(told, field, shape && sizes && { shape: shapeOf(shape), sizes }, table, found, known)
  if (found.faults.length > before || !shape || !sizes || !measuredBy || !planted || !lying || !finish)
    return null
  const bed: Bed = {
    shape,
    sizes,
    count,
    measuredBy,
    planted,
    lying,
    finish,
    depth: depth ?? new Decimal(finish.depth.usual),
    usual: depth === null,
    layers,
    ...more,
  }
  const refusal = found.reader.method.refusal(bed, table)
  if (!refusal) return bed
  found.fault(at(refusal.field), refusal.key)
  return null
}

function layersAsked(table: TableToRead) {
  return { table: table.whole ?? table, byHomeowner: table.whole !== undefined }
}

function readCount(told: unknown, field: string, found: ReadingNotes): number {
  const text = asTyped(told)?.trim() ?? ''
  const count = /^\d{1,4}$/.test(text) ? Number(text) : 0
  if (count < 1 || count > MOST_ALIKE) found.fault(field, 'fault.count', { most: String(MOST_ALIKE) })
  return count
}

function readLying(told: unknown, field: string, table: RateTable, found: ReadingNotes): Bed['lying'] | null {
  const text = asTyped(told)?.trim() ?? ''
  const name = layers.find(layer => layer === text.toLowerCase())
  if (name) return lyingNamed(name, table)
  const reading = found.reader.depth(text, unitSystem(table.units), zero)
  if (!reading.ok) {
    const own: FaultKey[] = ['fault.depth-absurd', 'fault.falls']
    found.fault(field, own.find(key => key === reading.key) ?? 'fault.lying', reading.params)
    return null
  }
  noteReading(reading, field, found)
  return lyingTold(reading.value, reading.spread, table)
}

/** A layer by its name, as thick as the table says. */
export function lyingNamed(name: LyingName, table: RateTable): Lying {
  const { m, s } = table.lying[name]
  return { m: new Decimal(m), s: new Decimal(s), layer: name, spread: null }
}

/** A layer told by its depth, in in|cm; without a spread of its own it is as uncertain as the table says. */
export function lyingTold(depth: Decimal, spread: Decimal | null, table: RateTable): Lying {
  return { m: depth, s: spread ?? new Decimal(table.lyingTold), layer: null, spread }
}

function readFinish(told: unknown, field: string, table: TableToRead, found: ReadingNotes): Finish | null {
  const gone = table.soldOut?.find(finish => finish.slug === asTyped(told)?.trim())
  if (gone) {
    found.fault(field, 'fault.finish-sold-out', { finish: gone.slug })
    return null
  }
  const slugs = table.finishes.map(finish => finish.slug)
  const slug = choiceOf(told, slugs, field, 'fault.finish', found)
  return table.finishes.find(finish => finish.slug === slug) ?? null
}

// Empty or absent: the finish's usual depth. It is a choice and no measurement: of 3-4 in the middle will be laid.
function readTarget(told: unknown, field: string, table: RateTable, found: ReadingNotes): Decimal | null {
  const text = told === undefined || told === null ? '' : asTyped(told)
  if (text?.trim() === '') return null
  const reading = found.reader.depth(text ?? '?', unitSystem(table.units))
  noteReading(asChosen(reading, table), field, found)
  return reading.ok ? reading.value : null
}

function asChosen(reading: MeasureReading, table: RateTable): MeasureReading {
  if (!reading.ok) return reading
  const shown = showDepth(reading.value, unitSystem(table.units))
  return { ...reading, echo: `= ${shown}${reading.ambiguous ? ' ?' : ''}` }
}
