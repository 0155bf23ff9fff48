import { narrowsUnasked, workOutBallpark } from '../estimate/ballpark/ballpark.ts'
import type { Bed, Fault, Job } from '../estimate/job/bed.ts'
import { MOST_BEDS, readTold, type ToldReading } from '../estimate/reading/read-beds.ts'
import { offeredShapes, type SizeField, sizeFields } from '../estimate/shapes/all-shapes.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { unitsInWords } from '../language/units-in-words.ts'
import type { BedTyped } from './bed-typed.ts'
import { type BedView, viewReadBeds } from './bed-view.ts'
import { asksAboutWork, type BedsForm, queryOf, toldOf } from './form.ts'
import {
  type Choice,
  type FinishChoice,
  type LayersAsked,
  layersAsked,
  layingsOf,
  type Option,
  plantingsOf,
  restInWords,
  tilesOf,
  usualDepth,
} from './form-choices.ts'
import type { OpenTable } from './open-table.ts'
import { type RangeStrip, stripOf } from './range-strip.ts'
import { type RangeView, viewRange } from './range-view.ts'
import { isOutside } from './served.ts'
import { SIZE_KEYS, type SizeKey } from './size-keys.ts'
import { bedFaultInWords, soldOutNotes } from './sold-out.ts'
import type { WayChoice } from './ways.ts'

/** What the form's page needs. */
export interface BedsPage {
  beds: {
    number: number
    typed: BedTyped
    /** By the name of the size: how it was understood, or that it can't be read; '' says nothing. */
    echoes: Record<string, string>
    /** What else a size, or the depth, may have meant. */
    instead: Record<string, Instead[]>
    depthEcho: string
    depthInstead: Instead[]
    usualDepth: string
    /** What usually lies beneath its finish; null where nothing does. */
    layers: LayersAsked | null
    /** Of a bed that begins as the one before: finish, plants, what lies there and the depth, in a line. */
    rest: string | null
    view: BedView | null
    folded: boolean
    mayTakeOut: boolean
  }[]
  shapes: Choice[]
  finishes: FinishChoice[]
  /** The tiles of both, which every bed shows again. */
  symbolsDrawing: string
  measuredBy: string
  /** Whether the beds are new; null where that isn't asked. */
  work: string | null
  extras: { slug: string; label: string; ticked: boolean }[]
  postcode: string
  /** Whether the ZIP or postcode is one that isn’t served. */
  notServed: boolean
  units: RateTable['units']
  sizes: SizeField[]
  /** What the keys beside a size put in, for fingers: the keypad has digits alone. */
  keys: SizeKey[]
  paceHint: string
  plantings: Option[]
  /** What may lie there; how deep a fair and a thick layer are taken to be is said of them. */
  layings: Option[]
  /** Which finishes are sold out at present and what comes close, a line each. */
  soldOut: string[]
  mayAdd: boolean
  range: RangeView | null
  /** How many of the beds the range is for, where some can't be read yet. */
  soFar: { read: number; all: number } | null
  /** The range in one line, and what is missing first; null while nothing is told. */
  strip: RangeStrip | null
  here: string
  errors: Record<string, string>
  scripts: string[]
  /** How else somebody may begin. */
  ways?: WayChoice[]
  /** Who and where as typed already, to be kept while the beds are changed. */
  carried?: [name: string, value: string][]
}

/** What of it follows the typing. */
export type LivePart = Pick<
  BedsPage,
  'beds' | 'soldOut' | 'range' | 'soFar' | 'strip' | 'notServed' | 'errors'
>

/** A spelling that means something else, and how that is said. */
interface Instead {
  spelling: string
  says: string
}

/** Makes the form's page, of a table as openTable gives it. `showFaults` puts a message at each field in fault; else unreadable ones say so quietly. */
export function viewBedsForm(
  form: BedsForm,
  table: OpenTable,
  language: Language,
  showFaults: boolean,
): BedsPage {
  const reading = readTold(toldOf(form), table)
  const read = reading.ok ? reading.job.beds : reading.readable
  const views = viewReadBeds(read, table.whole, language)
  const faults = reading.ok ? [] : reading.faults
  const ranged = rangeOf(form, reading, table, language)
  return {
    beds: form.beds.map((typed, index) => ({
      number: index + 1,
      typed,
      ...echoesOf(typed, index, reading, language, showFaults),
      usualDepth: usualDepth(typed, table, language),
      layers: layersAsked(typed, table, language),
      rest: index === 0 ? null : restInWords(typed, table, language),
      view: views[index] ?? null,
      // What may have meant something else stays in sight.
      folded: index < form.beds.length - 1 && Boolean(views[index]) && !isDoubtful(index, reading),
      mayTakeOut: form.beds.length > 1,
    })),
    ...tilesOf(table, language),
    measuredBy: form.measuredBy,
    work: asksAboutWork(table) ? form.work : null,
    extras: table.extras.map(({ slug, name }) => ({
      slug,
      label: name[language],
      ticked: form.extras.includes(slug),
    })),
    postcode: form.postcode,
    notServed: isOutside(form.postcode, table),
    units: table.units,
    sizes: sizeFields(offeredShapes()),
    keys: SIZE_KEYS[table.units],
    paceHint: t(language, `form.pace-${table.units}`, { pace: table.pace }),
    plantings: plantingsOf(language),
    layings: layingsOf(table, language),
    soldOut: soldOutNotes(table, language),
    mayAdd: form.beds.length < MOST_BEDS,
    ...ranged,
    strip: stripOf(form, faults, ranged.range),
    here: `/?${queryOf(form)}`,
    // A finish that can’t be picked is no matter of typing on.
    errors: faultsByField(showFaults ? faults : faults.filter(isOfFinish), form, table, language),
    scripts: ['live.js'],
  }
}

/** Faults in words by the form's own field names; how measured is one field for all the beds that don't say it themselves. */
function faultsByField(
  faults: Fault[],
  form: BedsForm,
  table: OpenTable,
  language: Language,
): Record<string, string> {
  const errors: Record<string, string> = {}
  for (const fault of faults) {
    const name = fault.field
      .replace(/^beds\.(\d+)\.measuredBy$/, (own, index) =>
        form.beds[Number(index)]?.measuredBy ? own : 'measuredBy',
      )
      .replace(/^extras.*/, 'extras')
      .replace(/^beds$/, '')
    errors[name] ??= bedFaultInWords(fault, table, language)
  }
  return errors
}

function rangeOf(form: BedsForm, reading: ToldReading, table: OpenTable, language: Language) {
  const read = reading.ok ? reading.job.beds : reading.readable
  const known = read.flatMap((bed, index) => (bed ? [{ bed, index }] : []))
  if (known.length === 0) return { range: null, soFar: null }
  const job = reading.ok
    ? reading.job
    : jobOf(
        form,
        known.map(one => one.bed),
        table,
      )
  const numbers = known.map(one => one.index + 1)
  const ballpark = workOutBallpark(job, table.whole, { narrower: narrowsUnasked(job.beds.length) })
  const range = viewRange(ballpark, form, table.whole, language, index => numbers[index]!)
  const all = form.beds.length
  return { range, soFar: known.length < all ? { read: known.length, all } : null }
}

function jobOf(form: BedsForm, beds: Bed[], table: OpenTable): Job {
  const extras = table.extras.filter(extra => form.extras.includes(extra.slug))
  return { beds, extras, postcode: form.postcode }
}

function isOfFinish({ field }: Fault): boolean {
  return /^beds\.\d+\.finish$/.test(field)
}

function echoesOf(
  typed: BedTyped,
  index: number,
  reading: ToldReading,
  language: Language,
  showFaults: boolean,
) {
  const faulty = new Set(reading.ok || showFaults ? [] : reading.faults.map(fault => fault.field))
  const instead = (field: string): Instead[] => {
    const spellings = reading.instead[`beds.${index}.${field}`] ?? []
    return spellings.map(spelling => ({ spelling, says: unitsInWords(spelling, language) }))
  }
  const echo = (field: string, text: string) => {
    const name = `beds.${index}.${field}`
    if (text === '' || !faulty.has(name)) return unitsInWords(reading.echoes[name] ?? '', language)
    return t(language, instead(field).length > 0 ? 'form.which' : 'form.unreadable')
  }
  const ofSizes = <Said>(say: (field: string, text: string) => Said) =>
    Object.fromEntries(Object.entries(typed.sizes).map(([name, text]) => [name, say(`sizes.${name}`, text)]))
  return {
    echoes: ofSizes(echo),
    instead: ofSizes(instead),
    depthEcho: echo('depth', typed.depth),
    depthInstead: instead('depth'),
  }
}

function isDoubtful(index: number, { instead }: ToldReading): boolean {
  return Object.keys(instead).some(field => field.startsWith(`beds.${index}.`))
}
