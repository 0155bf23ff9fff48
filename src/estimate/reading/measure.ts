import { type Decimal, two } from '../../lib/decimal.ts'
import type { MisreadKey, WhyMisread } from '../job/fault-keys.ts'
import { type Typed, takeApart } from './amounts.ts'
import type { Dialect } from './dialect.ts'
import { falls, type Meaning, meaningsOf } from './meanings.ts'
import { LONGEST_TYPED, scan } from './typed.ts'

/** A spelling of what may have been meant instead; it means that and nothing else. */
export type Instead = string

/**
 * What was understood, in the base unit asked for; spread is a standard error; second the other half of '20x5', told as
 * a guess or not by itself. `instead` are the other meanings that it could have.
 */
export interface Understood {
  ok: true
  value: Decimal
  spread: Decimal | null
  second: Decimal | null
  about: boolean
  secondAbout?: boolean
  paced: boolean
  ambiguous: boolean
  instead?: Instead[]
  echo: string
}

/** Why it could not be, and by which spellings it could be said. */
export interface Misread {
  ok: false
  key: MisreadKey
  params: Record<string, string>
  instead?: Instead[]
}

export type MeasureReading = Understood | Misread

/** Reads one box as people fill it; never throws, whatever was typed. */
export function readMeasure(typed: string, dialect: Dialect): MeasureReading {
  if (typed.length > LONGEST_TYPED) return { ok: false, key: 'fault.too-long', params: {} }
  const params = () => ({ typed: typed.trim().slice(0, 40), most: dialect.show(dialect.most) })
  const misread = (why: WhyMisread): Misread => ({
    ok: false,
    key: `fault.${dialect.kind}-${why}`,
    params: params(),
  })
  if (typed.trim() === '') return misread('missing')
  const scanner = scan(typed)
  const { text } = scanner
  const apart = /^-/.test(text) ? null : takeApart(scanner, dialect.kind, dialect.units)
  if (!apart) return misread(/^-\s*\d/.test(text) ? 'not-positive' : 'unreadable')
  if (dialect.asks.length > 0 && isBare(apart))
    return {
      ok: false,
      key: 'fault.volume-unit',
      params: params(),
      instead: dialect.asks.map(unit => `${text} ${unit}`),
    }
  const meanings = meaningsOf(apart, dialect)
  const possible = meanings.filter(one => limitOf(one, dialect) === null)
  const [likeliest, ...others] = possible
  if (!likeliest) {
    if (meanings[0]) return misread(limitOf(meanings[0], dialect)!)
    return falls(apart, dialect) ? { ok: false, key: 'fault.falls', params: params() } : misread('unreadable')
  }
  return understood(apart, likeliest, others, dialect)
}

function understood(apart: Typed, likeliest: Meaning, others: Meaning[], dialect: Dialect): Understood {
  const { value, spread, second } = likeliest
  const amounts = [apart.first, apart.upTo?.amount, apart.by]
  const read = {
    value,
    spread,
    second,
    about: apart.about,
    ...(apart.by && { secondAbout: apart.aboutSecond }),
    paced: amounts.some(amount => amount?.parts.some(part => part.unit?.name === 'paces')),
    ambiguous: others.length > 0,
    instead: others.slice(0, 1).map(one => (apart.about ? `≈ ${one.spelling}` : one.spelling)),
  }
  return { ...read, ok: true, echo: echoOf(read, dialect) }
}

function isBare({ first, upTo }: Typed): boolean {
  return [first, upTo?.amount].every(amount => amount?.parts.every(part => part.unit === null) ?? true)
}

function limitOf(
  { value, spread, second }: Meaning,
  { least, most }: Dialect,
): 'not-positive' | 'absurd' | null {
  const figures = second ? [value, second] : [value]
  if (figures.some(figure => figure.lt(least))) return 'not-positive'
  const high = spread ? value.plus(spread.times(two)) : value
  return [high, ...figures].some(figure => figure.gt(most)) ? 'absurd' : null
}

function echoOf(read: Omit<Understood, 'ok' | 'echo'>, dialect: Dialect): string {
  const spread = read.spread?.gt(0) ? ` ± ${dialect.show(read.spread.times(two))}` : ''
  const second = read.second ? ` × ${dialect.show(read.second)}` : ''
  return `${read.about ? '≈' : '='} ${dialect.show(read.value)}${spread}${second}${read.ambiguous ? ' ?' : ''}`
}
