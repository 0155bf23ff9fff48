import { type Decimal, two, zero } from '../../../../lib/decimal.ts'
import type { MeasureKind, MisreadKey, WhyMisread } from '../../../job/fault-keys.ts'
import { atEnd, LONGEST_TYPED, type Scanner, scan, take, takeNumber } from './typed.ts'
import { aboutAfter, aboutBefore, byWord, fromWord, type TypedUnit, toWord } from './unit-words.ts'

/** What was understood, in the base unit asked for; spread is a standard error; second the other half of '20x5'. */
export interface Understood {
  ok: true
  value: Decimal
  spread: Decimal | null
  second: Decimal | null
  about: boolean
  paced: boolean
  ambiguous: boolean
  echo: string
}

/** Why it could not be. */
export interface Misread {
  ok: false
  key: MisreadKey
  params: Record<string, string>
}

export type MeasureReading = Understood | Misread

/** What is being read: its units, the one meant by a bare number, the base unit's size, its limits and its echo. */
export interface Dialect {
  kind: MeasureKind
  units: TypedUnit[]
  bare: TypedUnit
  base: Decimal
  least: Decimal
  most: Decimal
  doubtful: (digits: string, unit: TypedUnit) => boolean
  show: (value: Decimal) => string
}

interface Part {
  value: Decimal
  digits: string
  unit: TypedUnit | null
}

interface Amount {
  parts: Part[]
  doubtful: boolean
}

/** Reads one box as people fill it; never throws, whatever was typed. */
export function readMeasure(typed: string, dialect: Dialect): MeasureReading {
  if (typed.length > LONGEST_TYPED) return { ok: false, key: 'fault.too-long', params: {} }
  const misread = (why: WhyMisread): Misread => ({
    ok: false,
    key: `fault.${dialect.kind}-${why}`,
    params: { typed: typed.trim().slice(0, 40), most: dialect.show(dialect.most) },
  })
  if (typed.trim() === '') return misread('missing')
  const scanner = scan(typed)
  const understood = /^-/.test(scanner.text) ? null : understand(scanner, dialect)
  if (!understood) return misread(/^-\s*\d/.test(scanner.text) ? 'not-positive' : 'unreadable')
  const values = [understood.value, ...(understood.second ? [understood.second] : [])]
  if (values.some(value => value.lt(dialect.least))) return misread('not-positive')
  if (values.some(value => value.gt(dialect.most))) return misread('absurd')
  return { ...understood, ok: true, echo: echoOf(understood, dialect) }
}

type Meaning = Omit<Understood, 'ok' | 'echo'>

function understand(scanner: Scanner, dialect: Dialect): Meaning | null {
  const aboutAtStart = take(scanner, aboutBefore) !== null
  take(scanner, fromWord)
  const first = takeAmount(scanner, dialect)
  if (!first) return null
  const upTo = takeNext(scanner, toWord, dialect)
  const by = dialect.kind === 'length' ? takeNext(scanner, byWord, dialect) : null
  const about = take(scanner, aboutAfter) !== null || aboutAtStart
  if (!atEnd(scanner)) return null
  const unit = unitOf(upTo) ?? unitOf(by) ?? dialect.bare
  const low = sizeOf(first, unit, dialect)
  const high = upTo && sizeOf(upTo, unitOf(first) ?? unit, dialect)
  return {
    value: high ? low.plus(high).div(two) : low,
    spread: high ? high.minus(low).abs().div(4) : null,
    second: by && sizeOf(by, unitOf(first) ?? unit, dialect),
    about,
    paced: [first, upTo, by].some(amount => amount?.parts.some(part => part.unit?.name === 'pace')),
    ambiguous: [first, upTo, by].some(amount => amount && doubtful(amount, unit, dialect)),
  }
}

function takeNext(scanner: Scanner, joint: RegExp, dialect: Dialect): Amount | null {
  const start = scanner.at
  const amount = take(scanner, joint) && takeAmount(scanner, dialect)
  if (!amount) scanner.at = start
  return amount
}

// 12 ft 6 in, 12'6, 12'-6", 1 m 20: a number with its unit, then smaller ones.
function takeAmount(scanner: Scanner, dialect: Dialect): Amount | null {
  const first = takePart(scanner, dialect)
  if (!first) return null
  const amount: Amount = { parts: [first], doubtful: false }
  for (let last = first; last.unit?.follows; ) {
    const start = scanner.at
    const joint = take(scanner, /-|,|(?:and|y)(?![a-z])/y)?.[0] ?? ''
    const next = takePart(scanner, dialect)
    if (!next || !continues(last, next, joint)) {
      scanner.at = start
      break
    }
    amount.doubtful ||= next.unit === null && (joint === '-' || overflows(last, next))
    amount.parts.push(next)
    last = next
  }
  return amount
}

function takePart(scanner: Scanner, dialect: Dialect): Part | null {
  const number = takeNumber(scanner)
  return number && { ...number, unit: dialect.units.find(unit => take(scanner, unit.pattern)) ?? null }
}

// 12'-6 is twelve feet six, as on a drawing; 12'-15 and 5 m-6 are a range.
function continues(last: Part, next: Part, joint: string): boolean {
  if (next.unit) return next.unit.size.lt(last.unit!.size) && next.unit.name !== 'pace'
  return joint === '' || (joint === '-' && last.unit!.name === 'ft' && next.value.lt(12))
}

// 12'15: more inches than a foot has.
function overflows(last: Part, next: Part): boolean {
  return next.value.times(last.unit!.follows!).gte(last.unit!.size)
}

function unitOf(amount: Amount | null): TypedUnit | null {
  return amount?.parts[0]?.unit ?? null
}

function sizeOf(amount: Amount, bare: TypedUnit, dialect: Dialect): Decimal {
  let before: TypedUnit | null = null
  let size = zero
  for (const part of amount.parts) {
    const each = part.unit?.size ?? before?.follows ?? bare.size
    size = size.plus(part.value.times(each))
    before = part.unit
  }
  return size.div(dialect.base)
}

function doubtful(amount: Amount, bare: TypedUnit, dialect: Dialect): boolean {
  const [only, more] = amount.parts
  return amount.doubtful || (!more && dialect.doubtful(only!.digits, only!.unit ?? bare))
}

function echoOf(meaning: Meaning, dialect: Dialect): string {
  const spread = meaning.spread?.gt(0) ? ` ± ${dialect.show(meaning.spread.times(two))}` : ''
  const second = meaning.second ? ` × ${dialect.show(meaning.second)}` : ''
  return `${meaning.about ? '≈' : '='} ${dialect.show(meaning.value)}${spread}${second}${meaning.ambiguous ? ' ?' : ''}`
}
