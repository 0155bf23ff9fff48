import type { Units } from '../db/schema/business.ts'
import { inventedPrices } from '../estimate/starter/starter-prices.ts'
import type { Typed } from '../http/posted.ts'
import { readFigure } from '../http/read-figure.ts'

const PLACES = 4

/** What goes together in the set-up form, by its name, with the invented value of each of its fields. */
function inventedFields(units: Units): Map<string, Typed> {
  const { rates, extras, minimumCharge, laborHoursPerVolume } = inventedPrices(units)
  const pair = (name: string, { lower, upper }: { lower: string; upper: string }): [string, Typed] => [
    name,
    { [`${name}.lower`]: lower, [`${name}.upper`]: upper },
  ]
  return new Map([
    ...Object.entries(rates).map(([slug, rate]) => pair(`rates.${slug}.0`, rate)),
    ...Object.entries(extras).map(([slug, rate]) => pair(`extras.${slug}`, rate)),
    ['minimumCharge', { minimumCharge }],
    ['laborHoursPerVolume', { laborHoursPerVolume }],
  ])
}

/**
 * What was typed into the set-up form, with invented prices where none were, and those of the other units that a filling
 * before put there (`filled`) changed for these. Gives how many fields it filled.
 */
export function fillPrices(typed: Typed, units: Units): { values: Typed; count: number } {
  const others = new Set(filledFor(typed) === otherThan(units) ? inventedIn(typed, otherThan(units)) : [])
  const filled: Typed = {}
  for (const [name, fields] of inventedFields(units)) {
    const isEmpty = Object.keys(fields).every(field => (typed[field] ?? '').trim() === '')
    if (isEmpty || others.has(name)) Object.assign(filled, fields)
  }
  return { values: { ...typed, ...filled, filled: units }, count: Object.keys(filled).length }
}

/** The names of the prices in a filled form that still are the invented ones: of a pair, or of a field by itself. */
export function stillInvented(typed: Typed): string[] {
  const units = filledFor(typed)
  return units ? inventedIn(typed, units) : []
}

/** The units of the invented prices that are still in the form, where the owner has since chosen others. */
export function filledForOthers(typed: Typed, units: Units): Units | null {
  const other = otherThan(units)
  return filledFor(typed) === other && inventedIn(typed, other).length > 0 ? other : null
}

function inventedIn(typed: Typed, units: Units): string[] {
  const same = ([field, invented]: [string, string]) =>
    readFigure(typed[field] ?? '', PLACES) === readFigure(invented, PLACES)
  return [...inventedFields(units)]
    .filter(([, fields]) => Object.entries(fields).every(same))
    .map(([name]) => name)
}

function filledFor({ filled }: Typed): Units | null {
  return filled === 'us' || filled === 'metric' ? filled : null
}

function otherThan(units: Units): Units {
  return units === 'us' ? 'metric' : 'us'
}
