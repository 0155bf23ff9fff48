import { Decimal, two } from '../../lib/decimal.ts'
import { readLength } from '../reading/lengths.ts'
import { PUBLISHED } from '../table/caution.ts'
import type { RateTable } from '../table/rate-table.ts'
import { rateTableSchema } from '../table/rate-table-schema.ts'
import { unitSystem } from '../units/units.ts'

/** The warnings that come about by their figure: a weight in lb|kg, and a length in ft|m. */
const READ = { lifting: readWeight, 'large-size': readLimit }
export type FiguredCode = keyof typeof READ

type Units = Pick<RateTable, 'units' | 'pace'>

/** The figure of a warning, read, and as it is told: the published one where the table's own can't be read. */
export function figureOf(
  code: FiguredCode,
  table: Units & Pick<RateTable, 'cautions'>,
): { limit: Decimal; figure: string } {
  const own = table.cautions.find(one => one.code === code)?.figure ?? ''
  const limit = readFigure(code, own, table)
  if (limit) return { limit, figure: own }
  const figure = publishedFigure(code, table)
  return { limit: readFigure(code, figure, table)!, figure }
}

/** What checks a rate table whose cautions are written now: one that is shown, and goes by its figure, has one that can be read. */
export const cautionsSchema = rateTableSchema.superRefine((table, context) => {
  // What is wrong elsewhere is told there.
  if (!(Number(table.pace) > 0)) return
  table.cautions.forEach(({ code, shown, figure }, index) => {
    const message = shown ? figureFault(code, figure, table) : null
    if (message !== null) context.addIssue({ code: 'custom', path: ['cautions', index, 'figure'], message })
  })
})

function figureFault(code: string, figure: string | undefined, table: Units): string | null {
  if (!(code in READ)) return null
  const figured = code as FiguredCode
  if (readFigure(figured, figure ?? '', table)) return null
  const kind = figured === 'lifting' ? 'weight' : 'length'
  return `needs a ${kind} we can read, like ${publishedFigure(figured, table)}`
}

function publishedFigure(code: FiguredCode, { units }: Units): string {
  return PUBLISHED[code][units]
}

const BEFORE =
  /^(?:about|around|approx(?:\.|imately)?|up to|at most|no more than|max(?:\.|imum)?|over|above|more than|under|[≈~<>≤≥])\s*/i
const AFTER =
  /\s*(?:each|apiece|at most|or (?:less|more)|max(?:\.|imum)?|(?:per|a) (?:person|bag|bale|lift)|for one person)\.?$/i

// '51 lb (23 kg)', '51 lb / 23 kg': the second must say the same; a remark without figures is passed over.
function readFigure(code: FiguredCode, typed: string, table: Units): Decimal | null {
  const [first = '', second = '', ...more] = typed
    .trim()
    .replace(/\)$/, '')
    .split(/\s*\(|\s+\/\s+/)
  const read = (text: string) => READ[code](text.replace(BEFORE, '').replace(AFTER, ''), table)
  const limit = read(first)
  if (!limit?.gt(0) || more.length > 0) return null
  if (!/\d/.test(second)) return limit
  const same = read(second)
  return same?.minus(limit).abs().lte(limit.div(20)) ? limit : null
}

const PER_KG = new Decimal('0.45359237')
const NUMBER = String.raw`(\d{1,3}(?:,\d{3})+|\d{1,5}(?:[.,]\d+)?)`
const UNIT = String.raw`\s*(lbs?|pounds?|kgs?|kilos?|kilograms?)?\.?`
const WEIGHT = new RegExp(`^${NUMBER}${UNIT}(?:\\s*(?:-|–|to)\\s*${NUMBER}${UNIT})?$`, 'i')

// Of a range its lower end, the more careful one.
function readWeight(text: string, { units }: Units): Decimal | null {
  const [, low, unitLow, high, unitHigh] = WEIGHT.exec(text) ?? []
  if (low === undefined) return null
  const weight = inOwn(low, unitLow ?? unitHigh, units)
  return high !== undefined && inOwn(high, unitHigh ?? unitLow, units).lt(weight) ? null : weight
}

function inOwn(amount: string, unit: string | undefined, units: RateTable['units']): Decimal {
  const weight = new Decimal(/,\d{3}$/.test(amount) ? amount.replaceAll(',', '') : amount.replace(',', '.'))
  const isKg = unit === undefined ? units === 'metric' : /^k/i.test(unit)
  if (isKg === (units === 'metric')) return weight
  return isKg ? weight.div(PER_KG) : weight.times(PER_KG)
}

function readLimit(text: string, { units, pace }: Units): Decimal | null {
  const reading = readLength(text, unitSystem(units), new Decimal(pace))
  if (!reading.ok || reading.second) return null
  return reading.spread ? reading.value.minus(reading.spread.times(two)) : reading.value
}
