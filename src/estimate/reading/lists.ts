import type { UnitSystem } from '../units/units.ts'
import { numbersInDigits } from './number-words.ts'

/** The entries of a list; and the same list told so that it means the other thing that it may have meant. */
export interface Listed {
  entries: string[]
  instead?: string
}

/** Longer lists are left as they are: nobody writes so many numbers out. */
const LONGEST_IN_WORDS = 2000

/**
 * Parts what was typed as a list: '0 2.5 3.5', '10; 12 1/2; 9', '10, 14, 18' or '10,14,18'. A comma between digits is a
 * decimal comma where something else parts the list. A unit at the end belongs to every entry without one; where that is
 * a small one, or bare numbers stand between feet, it may have been meant otherwise.
 */
export function partList(typed: string, system: UnitSystem): Listed {
  const text = typed.length <= LONGEST_IN_WORDS ? numbersInDigits(typed.trim().toLowerCase()) : typed.trim()
  if (text === '') return { entries: [] }
  if (text.includes(';')) return withLastUnit(trimmed(text.split(';')), system)
  if (/,\s/.test(text)) return withLastUnit(trimmed(text.split(/,\s+/)), system)
  if (!/\s/.test(text)) return withLastUnit(trimmed(text.split(',')), system)
  const parted = (joined: string) => trimmed(joined.split(/\s+/)).map(part => part.replaceAll('_', ' '))
  const entries = parted(bound(text))
  const asFeet = parted(boundAsFeet(bound(text)))
  if (asFeet.length < entries.length)
    return { entries: asFeet, instead: entries.map(entry => withUnit(entry, 'ft')).join('; ') }
  return withLastUnit(entries, system)
}

function trimmed(parts: string[]): string[] {
  return parts.map(part => part.trim()).filter(part => part !== '')
}

// A fraction belongs to the whole number before it, a unit to its number, and inches to the feet before them.
function bound(text: string): string {
  return text
    .replace(/(\d)\s+(\d+[/⁄]\d+)/g, '$1_$2')
    .replace(/(\d)\s+([a-z])/gi, '$1_$2')
    .replace(/((?:ft|feet|foot|pies?)\.?|['’′])\s+(?=[\d./_]+(?:in|pulg|["”″]))/gi, '$1_')
}

// 10' 6 12' 3 9': what is less than twelve between feet goes on with the feet before it.
function boundAsFeet(text: string): string {
  return text.replace(/((?:ft|feet|foot|pies?)\.?|['’′])\s+(?=(?:\d|10|11)(?:_\d+\/\d+)?(?:\s|$))/gi, '$1_')
}

const small = /^(.*\d)\s*(in|ins|inch|inches|pulg|pulgadas?|cms?|mm|"|”|″)\.?$/i
const main =
  /^.*\d\s*(ft|feet|foot|pies?|yds?|yards?|yardas?|m|met(?:er|re)s?|metros?|'|’|′|paces?|pasos?)\.?$/i

function withLastUnit(entries: string[], system: UnitSystem): Listed {
  const last = entries.at(-1) ?? ''
  if (entries.length < 2 || !entries.some(isBare)) return { entries }
  const unit = small.exec(last)?.[2] ?? main.exec(last)?.[1]
  if (!unit) return withOneUnit(entries, system)
  const all = entries.map(entry => withUnit(entry, unit))
  if (!small.test(last)) return { entries: all }
  return { entries: all, instead: entries.map(entry => withUnit(entry, system.length)).join('; ') }
}

// 36" 20 20: a small unit is rather for the entry that has it, another one for all; the usual one doesn't matter.
function withOneUnit(entries: string[], system: UnitSystem): Listed {
  const told = entries.filter(entry => !isBare(entry))
  const unit = told.length > 0 && (small.exec(told[0]!)?.[2] ?? main.exec(told[0]!)?.[1])
  if (!unit || isUsual(unit, system) || !told.every(entry => entry.endsWith(unit))) return { entries }
  const written = (by: string) => entries.map(entry => withUnit(entry, by))
  const [likelier, other] = small.test(told[0]!) ? [system.length, unit] : [unit, system.length]
  return { entries: written(likelier), instead: written(other).join('; ') }
}

function isUsual(unit: string, system: UnitSystem): boolean {
  return (system.name === 'us' ? /^(ft|feet|foot|pies?|['’′])$/i : /^(m|met(er|re)s?|metros?)$/i).test(unit)
}

function withUnit(entry: string, unit: string): string {
  return isBare(entry) ? `${entry} ${unit}` : entry
}

function isBare(entry: string): boolean {
  return /^[\d.,\s/½⅓⅔¼¾⅛⅜⅝⅞-]+$/.test(entry)
}
