import { Decimal, zero } from '../../lib/decimal.ts'
import { type ShapeName, shapeOf } from '../shapes/all-shapes.ts'
import type { Size } from '../shapes/sizes.ts'
import { entryOf, valuesOf } from '../shapes/sizes.ts'
import type { RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import type { MeasureReading, Understood } from './measure.ts'
import type { Reader } from './reader.ts'
import { inOrder } from './sides.ts'
import { asTyped, fieldOf, noteReading, type ReadingNotes } from './told-fields.ts'

/** Reads the sizes the shape asks for; others are passed over. Null, and faults, when one can't be understood. */
export function readSizes(
  shape: ShapeName,
  told: unknown,
  field: string,
  table: RateTable,
  found: ReadingNotes,
): Record<string, Size> | null {
  const sizes: Record<string, Size> = {}
  let carried: Understood | null = null
  for (const { name, reads } of shapeOf(shape).sizes) {
    const at = `${field}.${name}`
    if (reads === 'lengths') {
      Object.assign(sizes, readListed(name, fieldOf(told, name), at, table, found))
      continue
    }
    const entered = typedIn(fieldOf(told, name))
    const typed = found.reader.sides && reads === 'length' ? inOrder(entered, name) : entered
    if (typed === null) {
      found.fault(at, 'fault.other-side', { typed: entered.slice(0, 40) })
      carried = null
      continue
    }
    if (carried && typed !== '') found.fault(at, 'fault.size-twice')
    const reading: MeasureReading =
      typed === '' && carried
        ? otherHalf(carried)
        : noteReading(readOne(found.reader, reads, typed, table), at, found)
    carried = reading.ok && reading.second ? reading : null
    if (reading.ok) sizes[name] = sizeOf(reading)
  }
  return finished(shape, sizes, carried, field, found)
}

/** More ordinates than anybody tapes along one bed. */
const LONGEST_LIST = 100

function readListed(name: string, sent: unknown, at: string, table: RateTable, found: ReadingNotes) {
  const listed = Array.isArray(sent)
    ? { entries: sent.map(typedIn) }
    : found.reader.list(typedIn(sent), unitSystem(table.units))
  const parts = listed.entries
  if (parts.length === 0) found.fault(at, 'fault.length-missing')
  if (parts.length > LONGEST_LIST) found.fault(at, 'fault.list-long', { most: String(LONGEST_LIST) })
  const sizes: Record<string, Size> = {}
  const echoes: string[] = []
  const others: string[] = []
  for (const [index, typed] of parts.slice(0, LONGEST_LIST).entries()) {
    const reading = isNothing(typed) ? nothing : readOne(found.reader, 'length', typed, table)
    if (!reading.ok || reading.second) {
      found.fault(
        at,
        reading.ok ? 'fault.length-unreadable' : reading.key,
        reading.ok ? { typed } : reading.params,
      )
      return {}
    }
    sizes[entryOf(name, index)] = sizeOf(reading)
    echoes.push(reading.echo.replace(/^= /, ''))
    others.push(reading.instead?.[0] ?? typed)
  }
  const isDoubtful = others.some((other, index) => other !== parts[index])
  const instead = listed.instead ?? (isDoubtful ? others.join('; ') : undefined)
  if (instead !== undefined) found.instead[at] = [instead]
  found.echoes[at] = `= ${echoes.join(', ')}${listed.instead === undefined ? '' : ' ?'}`
  return sizes
}

// A bed may begin and end in a point.
const nothing: Understood = {
  ok: true,
  value: zero,
  spread: null,
  second: null,
  about: false,
  paced: false,
  ambiguous: false,
  echo: '0',
}

/** Whether a size was typed as nothing: 0, 0.0, 0 ft. */
export function isNothing(typed: string): boolean {
  return /^0+([.,]0*)?\s*(ft|feet|foot|in|yd|m|cm|mm|pies?|["'])?\.?$/.test(typed)
}

function typedIn(sent: unknown): string {
  return asTyped(sent)?.trim() ?? (sent === undefined || sent === null ? '' : '?')
}

// '20x5' in one box fills the next one, where that is empty.
function otherHalf(first: Understood): MeasureReading {
  return {
    ...first,
    value: first.second!,
    second: null,
    spread: null,
    about: first.secondAbout ?? first.about,
  }
}

function sizeOf({ value, spread, about, paced }: Understood): Size {
  return { value, spread, about, paced }
}

function readOne(
  reader: Reader,
  reads: 'length' | 'area' | 'volume',
  typed: string,
  table: RateTable,
): MeasureReading {
  const system = unitSystem(table.units)
  switch (reads) {
    case 'length':
      return reader.length(typed, system, new Decimal(table.pace))
    case 'area':
      return reader.area(typed, system)
    case 'volume':
      return reader.volume(typed, system)
    default:
      return reads satisfies never
  }
}

function finished(
  shape: ShapeName,
  sizes: Record<string, Size>,
  carried: Understood | null,
  field: string,
  found: ReadingNotes,
): Record<string, Size> | null {
  const asked = shapeOf(shape).sizes
  if (carried) found.fault(`${field}.${asked.at(-1)!.name}`, 'fault.size-twice')
  const given = ({ name, reads }: (typeof asked)[number]) =>
    sizes[reads === 'lengths' ? entryOf(name, 0) : name]
  if (carried || asked.some(one => !given(one))) return null
  const wrong = shapeOf(shape).impossible(valuesOf(sizes))
  if (wrong) found.fault(`${field}.${wrong.size}`, wrong.key)
  return wrong ? null : sizes
}
