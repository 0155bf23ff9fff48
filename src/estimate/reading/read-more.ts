import { Decimal, zero } from '../../lib/decimal.ts'
import type { Bed, Slope, Work } from '../job/bed.ts'
import type { FaultKey } from '../job/fault-keys.ts'
import type { Shape } from '../shapes/shape.ts'
import type { Size } from '../shapes/sizes.ts'
import { valuesOf } from '../shapes/sizes.ts'
import type { RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import type { Known } from './known.ts'
import { readCutOuts, refuseLarge } from './read-cut-outs.ts'
import { readExtras } from './read-extras.ts'
import { isNothing } from './read-sizes.ts'
import { asTyped, choiceOf, fieldOf, noteReading, type ReadingNotes } from './told-fields.ts'

const MOST_STAIRS = 200
const works: Work[] = ['top-up', 'new']
const slopes: Slope[] = ['level', 'slope', 'steep']
const gates = ['wide', 'narrow'] as const

/** What may be said of a bed besides how large it is, what lies there and what it gets; each has a usual value. */
export type More = Pick<
  Bed,
  'work' | 'cutOuts' | 'noEdge' | 'carry' | 'stairs' | 'slope' | 'narrowGate' | 'extras'
>

/** Reads it; `outline` is the bed's shape and sizes, null where these can't be understood. */
export function readMore(
  told: unknown,
  field: string,
  outline: { shape: Shape; sizes: Record<string, Size> } | null,
  table: RateTable,
  found: ReadingNotes,
  known: Known = {},
): More {
  const at = (name: string) => `${field}.${name}`
  const given = (name: string) => textGiven(fieldOf(told, name))
  const volume = outline?.sizes.volume !== undefined
  // Most beds have neither, and an area or an edge takes many times as long as everything else here.
  const area = () => (outline && !volume ? outline.shape.area(valuesOf(outline.sizes), zero) : null)
  const cutOuts = known.cutOuts ?? readCutOuts(fieldOf(told, 'cutOuts'), at('cutOuts'), table, found)
  refuseLarge(cutOuts, at('cutOuts'), area, found)
  if (volume && cutOuts.length > 0) found.fault(at('cutOuts'), 'fault.cut-outs-volume')
  const noEdge = known.noEdge ?? readWay(given('noEdge'), at('noEdge'), table, found)
  if (outline && !noEdge.isZero())
    refuseNoEdge(noEdge, outline.shape.edge(valuesOf(outline.sizes)), at('noEdge'), found)
  return {
    work: readChoice(given('work'), works, at('work'), 'fault.work', found),
    cutOuts,
    noEdge,
    carry: known.carry ?? readWay(given('carry'), at('carry'), table, found),
    stairs: readStairs(given('stairs'), at('stairs'), found),
    slope: readChoice(given('slope'), slopes, at('slope'), 'fault.slope', found),
    narrowGate: readChoice(given('gate'), gates, at('gate'), 'fault.gate', found) === 'narrow',
    extras: readExtras(fieldOf(told, 'extras'), at('extras'), table, found),
  }
}

function textGiven(sent: unknown): string {
  return sent === undefined || sent === null ? '' : (asTyped(sent)?.trim() ?? '?')
}

// The first of the choices is what holds where nothing was said.
function readChoice<Choice extends string>(
  typed: string,
  choices: readonly Choice[],
  field: string,
  key: FaultKey,
  found: ReadingNotes,
): Choice {
  return (typed === '' ? null : choiceOf(typed, choices, field, key, found)) ?? choices[0]!
}

function readWay(typed: string, field: string, table: RateTable, found: ReadingNotes): Decimal {
  if (typed === '' || isNothing(typed)) return zero
  const reading = found.reader.length(typed, unitSystem(table.units), new Decimal(table.pace))
  if (reading.ok && reading.second) found.fault(field, 'fault.length-unreadable', { typed })
  else noteReading(reading, field, found)
  return reading.ok ? reading.value : zero
}

// A figure that could change nothing is refused, so that nobody takes it for counted.
function refuseNoEdge(noEdge: Decimal, edge: Decimal | null, field: string, found: ReadingNotes): void {
  if (edge === null) found.fault(field, 'fault.no-edge-unknown')
  else if (noEdge.gt(edge)) found.fault(field, 'fault.no-edge')
}

function readStairs(typed: string, field: string, found: ReadingNotes): number {
  if (typed === '') return 0
  const stairs = /^\d{1,3}$/.test(typed) ? Number(typed) : MOST_STAIRS + 1
  if (stairs > MOST_STAIRS) found.fault(field, 'fault.stairs', { most: String(MOST_STAIRS) })
  return stairs
}
