import type { StopTold } from '../estimate/job/bed.ts'
import { bedQuantities } from '../estimate/job/quantities.ts'
import { showLength } from '../estimate/units/show.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { quantityInWords } from '../language/quantity-in-words.ts'
import { unitsInWords } from '../language/units-in-words.ts'
import type { Decimal } from '../lib/decimal.ts'
import { type BedView, viewReadBeds } from '../requests/bed-view.ts'
import { depthInWords } from '../requests/layers-in-words.ts'
import type { AgreedJob } from './agreed-job.ts'
import { bedTakes, jobTakes, type Takes } from './bed-takes.ts'

/** One bed on a job sheet: drawn, and what is done there, in the order of the work. */
export interface SheetBed {
  view: BedView
  steps: string[]
  /** The way to it, and what slows the work. */
  way: string[]
}

/** A stop with its beds; null where the job has none. */
export interface SheetStop {
  stop: (StopTold & { at: number }) | null
  beds: (SheetBed & { n: number })[]
}

/** The beds of a job by stop, in their order, with what each takes; `barrow` is in ft³|m³. */
export function viewSheetBeds(agreed: AgreedJob, barrow: string, language: Language): SheetStop[] {
  const { quote, job, table } = agreed
  const { beds: told, stops = [] } = quote.job
  const views = viewReadBeds(job.beds, table, language, 'sheet-bed')
  const groups = new Map<number | null, SheetStop>()
  for (const [index, view] of views.entries()) {
    if (!view) continue
    const at = stops.length === 0 ? null : (told[index]?.stop ?? 0)
    const stop = at === null ? null : stops[at] ? { ...stops[at], at } : null
    const group = groups.get(at) ?? { stop, beds: [] }
    const one = {
      view,
      n: index + 1,
      steps: stepsOf(agreed, index, barrow, language),
      way: wayTo(agreed, index, language),
    }
    group.beds.push(one)
    groups.set(at, group)
  }
  return [...groups.values()]
}

/** What is done at a bed, first things first: extras, then each layer from the bottom up, and the edge. */
function stepsOf(agreed: AgreedJob, index: number, barrow: string, language: Language): string[] {
  const { job, table } = agreed
  const bed = job.beds[index]!
  const system = unitSystem(table.units)
  const { edge } = bedQuantities(bed, table)
  const besides = [...job.extras.filter(({ per }) => per !== 'job'), ...bed.extras]
  const layersFirst = [...bed.layers].reverse().flatMap(layer => ('extra' in layer ? [layer.extra] : []))
  const before = besides.filter(extra => !layersFirst.includes(extra)).map(({ name }) => name[language])
  const laid = bedTakes(bed, agreed, barrow).map(takes => layInWords(takes, agreed, language))
  const edgeWords =
    edge &&
    t(language, 'sheet.edge', {
      length: quantityInWords(edge.toFixed(4), system.length, language, 0),
    })
  return [
    ...new Set([...before, ...layersFirst.map(({ name }) => name[language])]),
    ...laid,
    ...(edgeWords ? [edgeWords] : []),
  ]
}

function layInWords(takes: Takes, { table }: AgreedJob, language: Language): string {
  return t(language, 'sheet.lay', {
    finish: takes.finish.name[language],
    depth: depthInWords(takes.depth.toString(), table, language),
    takes: takesInWords(takes, language),
  })
}

/** '6.3 × 2 ft³ bag' or '6 wheelbarrow loads'. */
export function takesInWords({ pack, count }: Pick<Takes, 'pack' | 'count'>, language: Language): string {
  const words = figureInWords(tenths(count), language, 1)
  if (pack) return t(language, 'sheet.bags', { count: words, pack: pack.name[language] })
  return words === '1' ? t(language, 'sheet.load') : t(language, 'sheet.loads', { count: words })
}

// Never nothing of what is something.
function tenths(count: Decimal): string {
  const rounded = count.toDecimalPlaces(1)
  return rounded.isZero() && count.gt(0) ? '0.1' : rounded.toFixed()
}

function wayTo({ job, table }: AgreedJob, index: number, language: Language): string[] {
  const { carry, stairs, narrowGate, slope } = job.beds[index]!
  const length = unitsInWords(showLength(carry, unitSystem(table.units)), language)
  return [
    carry.gt(0) ? t(language, 'sheet.carry', { length }) : '',
    stairs > 0 ? t(language, 'sheet.stairs', { count: String(stairs) }) : '',
    narrowGate ? t(language, 'sheet.narrow') : '',
    slope === 'slope' ? t(language, 'sheet.slope') : '',
    slope === 'steep' ? t(language, 'sheet.steep') : '',
  ].filter(Boolean)
}

/** All beds together, a sentence a material; and what is done once for the job. */
export function viewInAll(
  agreed: AgreedJob,
  barrow: string,
  language: Language,
): { takes: string[]; once: string } {
  const once = agreed.job.extras.filter(({ per }) => per === 'job').map(({ name }) => name[language])
  return {
    takes: jobTakes(agreed, barrow).map(
      takes => `${takes.finish.name[language]}: ${takesInWords(takes, language)}`,
    ),
    once: once.length > 0 ? t(language, 'sheet.whole-job', { list: once.join('; ') }) : '',
  }
}
