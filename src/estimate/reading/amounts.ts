import { Decimal } from '../../lib/decimal.ts'
import type { MeasureKind } from '../job/fault-keys.ts'
import {
  aboutAfter,
  aboutBefore,
  bagsAfter,
  bagsOf,
  byWord,
  circleTail,
  depthTail,
  eachAfter,
  fromWord,
  inWords,
  lengthTail,
  toAfterFrom,
  toWord,
  volumeTail,
} from './small-words.ts'
import { atEnd, type Scanner, take, takeNumber } from './typed.ts'
import type { TypedUnit } from './unit-words.ts'

/** A number with its unit, if it had one; `shareOf`: a share after 'and', after '+' of the unit before it, or right after a unit. */
export interface Part {
  value: Decimal
  digits: string
  text: string
  unit: TypedUnit | null
  shareOf: 'and' | '+' | 'then' | null
}

/** A figure of one or more parts: '12 ft 6 in'. */
export interface Amount {
  parts: Part[]
  about: boolean
}

/** What was typed in one box, in its parts: '20', '20-25', '20 x 5'. */
export interface Typed {
  first: Amount
  upTo: { amount: Amount; dash: boolean } | null
  by: Amount | null
  /** Whether the first figure, and the one after 'by', are no more than guesses. */
  about: boolean
  aboutSecond: boolean
  /** How many bags of it. */
  bags: Decimal | null
}

/** Takes a text apart by the units of what is asked for; null where it can't be. */
export function takeApart(scanner: Scanner, kind: MeasureKind, units: TypedUnit[]): Typed | null {
  const aboutAtStart = take(scanner, aboutBefore) !== null
  const from = take(scanner, fromWord) !== null
  const bags = kind === 'volume' ? (takeBags(scanner) ?? takeEach(scanner, units)) : null
  const first = takeAmount(scanner, kind, units)
  if (!first) return null
  if (bags) take(scanner, bagsAfter)
  if (bags) take(scanner, eachAfter)
  const start = scanner.at
  const joint = (from ? take(scanner, toAfterFrom) : null) ?? take(scanner, toWord)
  const next = joint && takeAmount(scanner, kind, units)
  if (!next) scanner.at = start
  const around = next ? null : takeAround(scanner, first, kind, units)
  const aboutFirst = take(scanner, aboutAfter) !== null || first.about || Boolean(next?.about)
  const by = kind === 'length' ? takeAfter(scanner, byWord, kind, units) : null
  const aboutAll = aboutAtStart || (by !== null && take(scanner, aboutAfter) !== null)
  if (!atEnd(scanner)) return null
  return {
    first: around?.low ?? first,
    upTo: around
      ? { amount: around.high, dash: false }
      : next
        ? { amount: next, dash: joint![0] === '-' }
        : null,
    by,
    about: aboutAll || aboutFirst,
    aboutSecond: aboutAll || Boolean(by?.about),
    bags,
  }
}

function takeBags(scanner: Scanner): Decimal | null {
  const start = scanner.at
  const number = takeNumber(scanner)
  if (number && take(scanner, bagsOf)) return number.value
  scanner.at = start
  return null
}

// 20 2 cu ft bags: the first number counts where the second has the unit and bags are named after it.
function takeEach(scanner: Scanner, units: TypedUnit[]): Decimal | null {
  const start = scanner.at
  const number = take(scanner, /\d{1,4}(?= \d)/y)
  const ahead = { text: scanner.text, at: scanner.at }
  if (number && takePart(ahead, units)?.unit && take(ahead, bagsAfter)) return new Decimal(number[0])
  scanner.at = start
  return null
}

// 20 ± 2 as 18 to 22; a unit at the end belongs to both, but not a small one: 20 ± 6 in could be feet.
function takeAround(scanner: Scanner, first: Amount, kind: MeasureKind, units: TypedUnit[]) {
  const start = scanner.at
  const around = aroundOf(first, takeAfter(scanner, /±|\+ ?\/ ?-/y, kind, units), kind)
  if (!around) scanner.at = start
  return around
}

function aroundOf(first: Amount, more: Amount | null, kind: MeasureKind) {
  const [middle, gap] = [first.parts[0]!, more?.parts[0]]
  if (!gap || first.parts.length + more!.parts.length > 2) return null
  if (!middle.unit && gap.unit?.name === 'in' && kind === 'length') return null
  const unit = middle.unit ?? gap.unit
  const half = unit && gap.unit ? gap.value.times(gap.unit.size).div(unit.size) : gap.value
  if (half.gt(middle.value)) return null
  const at = (value: Decimal): Amount => ({
    parts: [{ value, digits: '', text: value.toFixed(), unit, shareOf: null }],
    about: first.about,
  })
  return { low: at(middle.value.minus(half)), high: at(middle.value.plus(half)) }
}

function takeAfter(scanner: Scanner, joint: RegExp, kind: MeasureKind, units: TypedUnit[]): Amount | null {
  const start = scanner.at
  const amount = take(scanner, joint) && takeAmount(scanner, kind, units)
  if (!amount) scanner.at = start
  return amount
}

const TAILS: Partial<Record<MeasureKind, RegExp>> = {
  length: lengthTail,
  depth: depthTail,
  volume: volumeTail,
}

// 12 ft 6 in, 12'6, 12'-6", 1 m 20, 12' 6" and 1/2: a number with its unit, then smaller ones.
function takeAmount(scanner: Scanner, kind: MeasureKind, units: TypedUnit[]): Amount | null {
  const about = take(scanner, aboutBefore) !== null
  const first = takePart(scanner, units)
  if (!first) return null
  const parts = [first]
  while (parts.at(-1)!.unit) {
    const next = takeNext(scanner, parts.at(-1)!, units)
    if (!next) break
    parts.push(next)
  }
  const tail = TAILS[kind]
  if (tail) take(scanner, tail)
  if (kind === 'length' && isSaid(parts.at(-1)!)) take(scanner, circleTail)
  if (kind === 'length' && parts.at(-1)!.unit) take(scanner, inWords)
  return { parts, about }
}

// '12 in diameter' may be twelve inches or twelve feet.
function isSaid({ unit }: Part): boolean {
  return unit !== null && unit.name !== 'in'
}

function takeNext(scanner: Scanner, last: Part, units: TypedUnit[]): Part | null {
  const start = scanner.at
  const joint = take(scanner, /[-,+]|(?:and|y|&)(?![a-z\d])/y)?.[0] ?? ''
  const next = takePart(scanner, units)
  if (next && continues(last, next, joint)) {
    return { ...next, shareOf: shareAfter(joint, next) }
  }
  scanner.at = start
  return null
}

function shareAfter(joint: string, { unit, digits, value }: Part): Part['shareOf'] {
  if (unit !== null || value.gte(1)) return null
  if (joint === '') return value.isZero() ? null : 'then'
  if (digits !== '') return null
  return joint === '+' ? '+' : 'and'
}

function takePart(scanner: Scanner, units: TypedUnit[]): Part | null {
  const number = takeNumber(scanner)
  if (!number) return null
  const unit = units.find(one => take(scanner, one.pattern)) ?? null
  return unit && isRaised(scanner) ? null : { ...number, unit, shareOf: null }
}

// 'ft2' and 'm2' are areas, 'ft3' a volume; '12ft2in' is twelve feet two.
function isRaised(scanner: Scanner): boolean {
  const rest = scanner.text.slice(scanner.at - 1)
  return /^[a-z.](?:\^|[23] ?(?:$|x|by|por|to|-|and|,|;))/.test(rest)
}

// Whether a number goes on with the figure before it, as six inches do after twelve feet. A bare one after a dash or an
// 'and' is another figure, unless it is a share.
function continues(last: Part, next: Part, joint: string): boolean {
  if (next.unit) return next.unit.size.lt(last.unit!.size) && next.unit.name !== 'paces'
  if (
    next.digits === '' &&
    next.value.lt(1) &&
    (joint === 'and' || joint === '&' || joint === 'y' || joint === '+')
  )
    return true
  return joint === '' && last.unit!.follows !== null
}
