import type { ShapeName, Size } from './bed.ts'
import { Decimal } from './decimal.ts'
import { readArea, readLength, readVolume } from './lengths.ts'
import type { Reading, Understood } from './measure.ts'
import type { RateTable } from './rate-table.ts'
import { shapeOf } from './shape.ts'
import { fieldOf, type Notes, textOf } from './told-fields.ts'
import { unitSystem } from './units.ts'

/** Reads the sizes the shape asks for; others are passed over. Null, and faults, when one can't be understood. */
export function readSizes(
  shape: ShapeName,
  told: unknown,
  field: string,
  table: RateTable,
  found: Notes,
): Record<string, Size> | null {
  const sizes: Record<string, Size> = {}
  let carried: Understood | null = null
  for (const { name, reads } of shapeOf(shape).sizes) {
    const at = `${field}.${name}`
    const typed = typedIn(fieldOf(told, name))
    if (carried && typed !== '') found.fault(at, 'fault.size-twice')
    const reading: Reading = typed === '' && carried ? otherHalf(carried) : readOne(reads, typed, table)
    if (!reading.ok) found.fault(at, reading.key, reading.params)
    else if (typed !== '') found.echoes[at] = reading.echo
    carried = reading.ok && reading.second ? reading : null
    if (reading.ok) sizes[name] = sizeOf(reading)
  }
  return finished(shape, sizes, carried, field, found)
}

function typedIn(sent: unknown): string {
  return textOf(sent)?.trim() ?? (sent === undefined || sent === null ? '' : '?')
}

// '20x5' in one box fills the next one, where that is empty.
function otherHalf(first: Understood): Reading {
  return { ...first, value: first.second!, second: null, spread: null }
}

function sizeOf({ value, spread, about, paced }: Understood): Size {
  return { value, spread, about, paced }
}

function readOne(reads: 'length' | 'area' | 'volume', typed: string, table: RateTable): Reading {
  const system = unitSystem(table.units)
  switch (reads) {
    case 'length':
      return readLength(typed, system, new Decimal(table.pace))
    case 'area':
      return readArea(typed, system)
    case 'volume':
      return readVolume(typed, system)
    default:
      return reads satisfies never
  }
}

function finished(
  shape: ShapeName,
  sizes: Record<string, Size>,
  carried: Understood | null,
  field: string,
  found: Notes,
): Record<string, Size> | null {
  const asked = shapeOf(shape).sizes
  if (carried) found.fault(`${field}.${asked.at(-1)!.name}`, 'fault.size-twice')
  if (carried || asked.some(({ name }) => !sizes[name])) return null
  const values = Object.fromEntries(Object.entries(sizes).map(([name, size]) => [name, size.value]))
  const wrong = shapeOf(shape).impossible(values)
  if (wrong) found.fault(`${field}.${wrong.size}`, wrong.key)
  return wrong ? null : sizes
}
