import type { Bed, Fault, Job } from '../job/bed.ts'
import type { Known } from './known.ts'
import { readBed, type TableToRead } from './read-bed.ts'
import { besideJobExtras, readExtras, slugsIn } from './read-extras.ts'
import { type Reader, todaysReader } from './reader.ts'
import { asTyped, fieldOf, type Notes, notes, type ReadingNotes } from './told-fields.ts'

export const MOST_BEDS = 40

/** What the staff may put into one job, with its stops: strangers are kept to `MOST_BEDS`. */
export const MOST_BEDS_OF_STAFF = 300

/** More figures than a day's measuring brings; each of them costs time. */
const MOST_FIGURES = 1000

/** By field: how it was understood, and spellings of what else it may have meant. */
interface Echoed {
  echoes: Record<string, string>
  instead: Record<string, string[]>
}

/** Readable has a null for each bed that can't be understood. */
export type ToldReading =
  | ({ ok: true; job: Job } & Echoed)
  | ({ ok: false; faults: Fault[]; readable: (Bed | null)[] } & Echoed)

/**
 * By which reader; how many beds at most; and what is known of a bed, by its index, and so isn't read.
 */
export interface ReadingOptions {
  reader?: Reader
  most?: number
  known?: (index: number) => Known
}

/** Reads beds as typed in a form or sent as JSON; never throws, whatever is sent. Every fault has its field. */
export function readTold(
  body: unknown,
  table: TableToRead,
  { reader = todaysReader, most = MOST_BEDS, known = () => ({}) }: ReadingOptions = {},
): ToldReading {
  const found: ReadingNotes = { ...notes(), reader }
  const told = readList(fieldOf(body, 'beds'), most, found)
  const read = told.map((bed, index) => readBed(bed, `beds.${index}`, table, found, known(index)))
  const extras = readExtras(fieldOf(body, 'extras'), 'extras', table, found)
  const beds = read.map((bed, index) => {
    const asked = slugsIn(fieldOf(told[index], 'extras'))
    return bed && besideJobExtras(bed, asked, `beds.${index}`, extras, found)
  })
  const postcode = readPostcode(fieldOf(body, 'postcode'), found)
  const { faults, echoes, instead } = found
  if (faults.length > 0) return { ok: false, faults, echoes, instead, readable: beds }
  return { ok: true, job: { beds: beds.filter(bed => bed !== null), extras, postcode }, echoes, instead }
}

function readList(beds: unknown, most: number, found: Notes): unknown[] {
  if (!Array.isArray(beds) || beds.length === 0) {
    found.fault('beds', 'fault.beds-missing')
    return []
  }
  if (beds.length > most) found.fault('beds', 'fault.beds-too-many', { most: String(most) })
  const mostFigures = figuresFor(most)
  if (amountSent({ beds }, most).figures > mostFigures) {
    found.fault('beds', 'fault.figures-too-many', { most: mostFigures.toLocaleString('en-US') })
    return []
  }
  return beds.slice(0, most)
}

function figuresFor(beds: number): number {
  return (beds / MOST_BEDS) * MOST_FIGURES
}

/**
 * How much was sent, of what is read: how many beds, and how many figures their sizes and cut-outs have, without reading
 * them. An entry of a list counts as one at least. Once there are too many, the rest isn't looked at.
 */
export function amountSent(body: unknown, most = MOST_BEDS): { beds: number; figures: number } {
  const sent = fieldOf(body, 'beds')
  const beds = Array.isArray(sent) ? sent.slice(0, most) : []
  const mostFigures = figuresFor(most)
  let figures = 0
  for (const amount of beds.values().flatMap(amountsIn)) {
    figures = Math.min(figures + amount, mostFigures + 1)
    if (figures > mostFigures) break
  }
  return { beds: beds.length, figures }
}

function* amountsIn(bed: unknown): Generator<number> {
  const sizes = fieldOf(bed, 'sizes')
  const told = typeof sizes === 'object' && sizes !== null ? Object.values(sizes) : []
  for (const one of [...told, fieldOf(bed, 'cutOuts')]) {
    if (!Array.isArray(one)) yield figuresIn(one)
    else for (const entry of one) yield Math.max(1, figuresIn(entry))
  }
}

function figuresIn(told: unknown): number {
  if (typeof told === 'number') return 1
  if (typeof told !== 'string') return 0
  return told
    .matchAll(/\d+(?:[.,/]\d+)*/g)
    .take(MOST_FIGURES + 1)
    .reduce(count => count + 1, 0)
}

function readPostcode(told: unknown, found: Notes): string {
  const text = told === undefined || told === null ? '' : asTyped(told)?.trim()
  if (text === undefined || text.length > 20) {
    found.fault('postcode', 'fault.postcode')
    return ''
  }
  return text
}
