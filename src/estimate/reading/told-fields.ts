import { Decimal } from '../../lib/decimal.ts'
import type { Fault } from '../job/bed.ts'
import type { FaultKey } from '../job/fault-keys.ts'
import type { MeasureReading } from './measure.ts'
import type { Reader } from './reader.ts'
import { LONGEST_TYPED } from './typed.ts'

/**
 * What is noted while reading: what is wrong, how each field was understood, and which spellings say what else it may
 * have meant.
 */
export interface Notes {
  faults: Fault[]
  echoes: Record<string, string>
  instead: Record<string, string[]>
  fault(field: string, key: FaultKey, params?: Record<string, string>): void
}

/** The same while text is read, and by which reader. */
export interface ReadingNotes extends Notes {
  reader: Reader
}

export function notes(): Notes {
  const faults: Fault[] = []
  const fault: Notes['fault'] = (field, key, params = {}) => faults.push({ field, key, params })
  return { faults, echoes: {}, instead: {}, fault }
}

/** Notes how a box was read; gives it back. */
export function noteReading(reading: MeasureReading, field: string, found: Notes): MeasureReading {
  if (reading.instead && reading.instead.length > 0) found.instead[field] = reading.instead
  if (reading.ok) found.echoes[field] = reading.echo
  else found.fault(field, reading.key, reading.params)
  return reading
}

/** A field of whatever was sent: undefined when it isn't an object or hasn't the field itself. */
export function fieldOf(sent: unknown, name: string): unknown {
  if (typeof sent !== 'object' || sent === null || !Object.hasOwn(sent, name)) return undefined
  return (sent as Record<string, unknown>)[name]
}

/** Text as it stands, a number as it would be typed; undefined for anything else. */
export function asTyped(sent: unknown): string | undefined {
  if (typeof sent === 'string') return sent
  return typeof sent === 'number' && Number.isFinite(sent) ? new Decimal(sent).toFixed() : undefined
}

/** The one of the choices that was sent; a fault naming them all, and null, when it is none. */
export function choiceOf<Choice extends string>(
  sent: unknown,
  choices: readonly Choice[],
  field: string,
  key: FaultKey,
  found: Notes,
): Choice | null {
  const text = asTyped(sent)?.trim()
  const choice = choices.find(one => one === text)
  if (choice === undefined) {
    const typed = (text ?? '').slice(0, LONGEST_TYPED / 5)
    found.fault(field, key, { typed, choices: choices.join(', ') })
  }
  return choice ?? null
}
