import { Decimal, two } from '../../lib/decimal.ts'
import type { Amount, Part, Typed } from './amounts.ts'
import type { Dialect } from './dialect.ts'
import type { TypedUnit } from './unit-words.ts'

/** One way to understand what was typed, in the base unit; `spelling` is text that means this and nothing else. */
export interface Meaning {
  value: Decimal
  spread: Decimal | null
  second: Decimal | null
  spelling: string
}

/** Numbers each with a unit: what they come to, and how that is written. */
type Term = { text: string; value: Decimal; unit: TypedUnit }[]

/** How two figures with a joint are taken: as a range, as feet and inches, with one lead for both, or turned round. */
type Taken = 'range' | 'feet' | 'led' | 'turned'

interface Way {
  taken: Taken
  /** What bare numbers are in. */
  bare: TypedUnit
  /** Whatever of a single number has two readings is taken the other way. */
  other: boolean
}

/** Every meaning that what was typed can have, the likeliest first; none that falls, and none twice. */
export function meaningsOf(typed: Typed, dialect: Dialect): Meaning[] {
  const found: Meaning[] = []
  for (const way of waysOf(typed, dialect)) {
    const meaning = meaningIn(typed, way, dialect)
    if (meaning && !found.some(one => isSame(one, meaning))) found.push(meaning)
  }
  return found
}

/** Whether it is a range that goes down however it is taken. */
export function falls(typed: Typed, dialect: Dialect): boolean {
  if (!typed.upTo) return false
  return waysOf(typed, dialect).every(({ bare, other }) => {
    const [low, high] = [typed.first, typed.upTo!.amount].map(amount => termOf(amount, bare, other, dialect))
    return Boolean(low && high && sizeOf(low).gt(sizeOf(high)))
  })
}

function* waysOf(typed: Typed, dialect: Dialect): Generator<Way> {
  for (const other of isDoubtful(typed) ? [false, true] : [false])
    for (const bare of bareUnits(typed, dialect))
      for (const taken of takings(typed, dialect)) yield { taken, bare, other }
}

// Whether a number by itself may have two readings; most haven't, and so aren't tried twice.
function isDoubtful({ first, upTo, by }: Typed): boolean {
  return [first, upTo?.amount, by].some(amount =>
    amount?.parts.some(
      ({ digits, shareOf, unit }, index) =>
        /[.,]/.test(digits) || shareOf === 'and' || (index > 0 && !unit && digits.length === 1),
    ),
  )
}

/**
 * What bare numbers may be in, the likeliest first. A unit at the end belongs to all, though a small one may have been
 * meant for the last alone; one at the start is doubtful where it isn't what bare numbers are in.
 */
function bareUnits({ first, upTo, by }: Typed, dialect: Dialect): TypedUnit[] {
  const amounts = [first, upTo?.amount, by].filter(amount => amount != null)
  const [start, end] = [first, amounts.at(-1)!].map(({ parts }) => parts[0]!.unit)
  const usual = dialect.bare
  if (amounts.length === 1 || amounts.every(({ parts }) => parts[0]!.unit)) return [usual]
  if (dialect.kind !== 'length') return [end ?? start ?? usual]
  if (end && !isSmall(end, usual)) return [end]
  if (end) return tooSmall(amounts, end) ? [usual, end] : [end, usual]
  if (!start || start.name === usual.name) return [usual]
  if (upTo && !by) return [start, usual]
  return isMain(start) ? [start, usual] : [usual, start]
}

function isSmall(unit: TypedUnit, usual: TypedUnit): boolean {
  return unit.size.lt(usual.size) && !isMain(unit)
}

function isMain({ name }: TypedUnit): boolean {
  return name === 'ft' || name === 'm' || name === 'paces'
}

// No bed is narrower than half a foot.
function tooSmall(amounts: Amount[], unit: TypedUnit): boolean {
  return amounts.some(({ parts }) => !parts[0]!.unit && parts[0]!.value.times(unit.size).lt('0.15'))
}

function takings({ first, upTo }: Typed, dialect: Dialect): Taken[] {
  if (!upTo) return ['range']
  if (isFeetAndInches(first, upTo.amount, dialect) && upTo.dash)
    return first.parts[0]!.unit ? ['feet', 'range', 'turned'] : ['range', 'feet', 'turned']
  return first.parts.length > 1 && upTo.amount.parts.length === 1 ? ['led', 'range'] : ['range']
}

// 12-6, 12'-6 and 12-6": as on a drawing.
function isFeetAndInches(
  { parts: [whole, ...more] }: Amount,
  { parts: [rest, ...others] }: Amount,
  { kind, bare }: Dialect,
) {
  if (kind !== 'length' || more.length > 0 || others.length > 0 || !/^\d+$/.test(whole!.digits)) return false
  const inFeet = whole!.unit ? whole!.unit.name === 'ft' : bare.name === 'ft'
  return inFeet && rest!.value.lt(12) && (rest!.unit === null || rest!.unit.name === 'in')
}

function meaningIn(typed: Typed, way: Way, dialect: Dialect): Meaning | null {
  const { first, upTo, by } = typed
  const one = termOf(
    first,
    way.taken === 'feet' || way.taken === 'turned' ? feetIn(first, way, dialect) : way.bare,
    way.other,
    dialect,
  )
  const second = by && termOf(by, way.bare, way.other, dialect)
  if (!one || (by && !second)) return null
  if (!upTo) return meaning(typed, one, null, second, dialect)
  const next = upTo.amount.parts[0]!
  if (way.taken === 'feet') {
    const inches = unitNamed('in', dialect)
    return meaning(
      typed,
      [...one, { text: next.text, value: next.value, unit: inches }],
      null,
      second,
      dialect,
    )
  }
  if (way.taken === 'led') {
    const led = { parts: [...first.parts.slice(0, -1), ledPart(next, first.parts.at(-1)!)], about: false }
    const high = next.unit?.size.gte(first.parts[0]!.unit!.size)
      ? null
      : termOf(led, way.bare, way.other, dialect)
    return high && rising(typed, one, high, second, dialect)
  }
  const other = termOf(upTo.amount, way.bare, way.other, dialect)
  if (!other) return null
  if (way.taken === 'range') return rising(typed, one, other, second, dialect)
  // Nothing is nought wide, and nobody turns inches and feet round.
  const isRange = !sizeOf(other).isZero() && other[0]!.unit.name === one[0]!.unit.name
  return isRange ? rising(typed, other, one, second, dialect) : null
}

// In '12-6"' the inches are for the last number alone once it is taken as on a drawing.
function feetIn(first: Amount, { taken, bare }: Way, dialect: Dialect): TypedUnit {
  if (first.parts[0]!.unit) return first.parts[0]!.unit
  return taken === 'feet' ? dialect.bare : bare
}

function ledPart(next: Part, last: Part): Part {
  return { ...next, unit: next.unit ?? last.unit }
}

function rising(typed: Typed, low: Term, high: Term, second: Term | null, dialect: Dialect): Meaning | null {
  return sizeOf(low).gt(sizeOf(high)) ? null : meaning(typed, low, high, second, dialect)
}

function meaning(
  { bags }: Typed,
  low: Term,
  high: Term | null,
  second: Term | null,
  { base }: Dialect,
): Meaning {
  const from = sizeOf(low).times(bags ?? 1)
  const to = high && sizeOf(high).times(bags ?? 1)
  const spelling = [spelled(low, high), ...(second ? [spelled(second, null)] : [])].join(' x ')
  return {
    value: (to ? from.plus(to).div(two) : from).div(base),
    spread: to?.gt(from) ? to.minus(from).div(4).div(base) : null,
    second: second && sizeOf(second).div(base),
    spelling: bags ? `${bags.toFixed()} bags of ${spelling}` : spelling,
  }
}

function isSame(one: Meaning, other: Meaning): boolean {
  const figures = ({ value, spread, second }: Meaning) =>
    [value, spread, second].map(figure => figure?.toFixed(12) ?? '')
  return figures(one).join() === figures(other).join()
}

/** The amount with a unit for every number; null where bare numbers would make too much, as fifteen inches after feet. */
function termOf({ parts }: Amount, bare: TypedUnit, other: boolean, dialect: Dialect): Term | null {
  const term: Term = []
  for (const [index, part] of parts.entries()) {
    const before = term.at(-1)?.unit
    if (index === 0 && parts.length === 1) {
      const taken = other && otherwise(part, part.unit ?? bare, dialect)
      if (taken) return taken
    }
    const unit = before ? unitAfter(part, before, other, dialect) : (part.unit ?? bare)
    if (!unit) return null
    if (before && !part.unit && part.shareOf === null && part.value.times(unit.size).gte(before.size))
      return null
    const whole = term.at(-1)?.text ?? ''
    // 1 m 5 may be 1.5 m; ½ m 5 may not.
    const maybeTenths = !part.unit && unit.name === 'cm' && /^\d$/.test(part.digits) && /^\d+$/.test(whole)
    if (other && before && maybeTenths) {
      term.pop()
      const text = `${whole}.${part.digits}`
      term.push({ text, value: new Decimal(text), unit: before })
    } else term.push({ text: part.text, value: part.value, unit })
  }
  return term
}

function unitAfter(part: Part, before: TypedUnit, other: boolean, dialect: Dialect): TypedUnit | null {
  if (part.unit) return part.unit
  const follows = before.follows === null ? null : unitNamed(before.follows, dialect)
  if (part.shareOf === '+') return before
  if (part.shareOf === 'and') return other ? follows : before
  return follows
}

/** A single number taken the other way: 5.6 as feet and inches, 1,200 with its mark for decimals or for thousands. */
function otherwise({ digits }: Part, unit: TypedUnit, dialect: Dialect): Term | null {
  if (dialect.kind === 'length' && unit.name === 'ft') {
    const [, whole, inches] = /^(\d+)[.,]([12346789]|10|11)$/.exec(digits) ?? []
    if (!whole) return null
    return [
      { text: whole, value: new Decimal(whole), unit },
      { text: inches!, value: new Decimal(inches!), unit: unitNamed('in', dialect) },
    ]
  }
  const [, whole, mark, rest] = dialect.metric ? (/^(\d{1,3})([.,])(\d{3})$/.exec(digits) ?? []) : []
  if (!whole) return null
  const text = mark === ',' ? plainly(whole, rest!) : `${whole}${rest}`
  return [{ text, value: new Decimal(text), unit }]
}

// With fewer or more than three decimals nobody takes it for thousands.
function plainly(whole: string, decimals: string): string {
  const few = decimals.replace(/0+$/, '')
  if (few.length === 3) return `${whole}.${decimals}0`
  return few === '' ? whole : `${whole}.${few}`
}

function unitNamed(name: string, { units }: Dialect): TypedUnit {
  return units.find(unit => unit.name === name)!
}

function sizeOf(term: Term): Decimal {
  return term.reduce((sum, { value, unit }) => sum.plus(value.times(unit.size)), new Decimal(0))
}

function spelled(low: Term, high: Term | null): string {
  const text = (term: Term) => term.map(({ text: figure, unit }) => `${figure} ${unit.name}`).join(' ')
  if (!high) return text(low)
  // After a dash a smaller unit would go on with the figure before it.
  const isPlain = low.length === 1 && high.length === 1 && low[0]!.unit.name === high[0]!.unit.name
  return `${text(low)}${isPlain ? ' - ' : ' to '}${text(high)}`
}
