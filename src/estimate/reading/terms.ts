import { Decimal } from '../../lib/decimal.ts'
import type { Amount, Part } from './amounts.ts'
import type { Dialect } from './dialect.ts'
import type { TypedUnit } from './unit-words.ts'

/** Numbers each with a unit: what they come to, and how that is written. */
export type Term = { text: string; value: Decimal; unit: TypedUnit }[]

/** The amount with a unit for every number; null where bare numbers would make too much, as fifteen inches after feet. */
export function termOf({ parts }: Amount, bare: TypedUnit, other: boolean, dialect: Dialect): Term | null {
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
    } else if (other && before && part.shareOf === 'then') {
      if (!/^\d+$/.test(whole)) return null
      term.push(...joined(whole, part, term.pop()!, dialect))
    } else term.push({ text: part.text, value: part.value, unit })
  }
  return term
}

// 10' 1/2 as ten feet and a half. 20.6 ft could be six inches, and so isn't written.
function joined(whole: string, share: Part, { value, unit }: Term[number], dialect: Dialect): Term {
  if (share.digits === '') return [{ text: `${whole} ${share.text}`, value: value.plus(share.value), unit }]
  if (unit.name !== 'ft')
    return [{ text: value.plus(share.value).toFixed(), value: value.plus(share.value), unit }]
  const inches = share.value.times(12)
  return [
    { text: whole, value, unit },
    { text: inches.toFixed(), value: inches, unit: unitNamed('in', dialect) },
  ]
}

function unitAfter(part: Part, before: TypedUnit, other: boolean, dialect: Dialect): TypedUnit | null {
  if (part.unit) return part.unit
  const follows = before.follows === null ? null : unitNamed(before.follows, dialect)
  if (part.shareOf === '+') return before
  if (part.shareOf === 'and') return other ? follows : before
  if (part.shareOf === 'then') return other ? before : follows
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

/** The unit by its name. */
export function unitNamed(name: string, { units }: Dialect): TypedUnit {
  return units.find(unit => unit.name === name)!
}

/** What it comes to, in metres. */
export function sizeOf(term: Term): Decimal {
  return term.reduce((sum, { value, unit }) => sum.plus(value.times(unit.size)), new Decimal(0))
}

/** How it is written, or the range between both, so that it means that and nothing else. */
export function spelled(low: Term, high: Term | null): string {
  const text = (term: Term) => term.map(({ text: figure, unit }) => `${figure} ${unit.name}`).join(' ')
  if (!high) return text(low)
  // After a dash a smaller unit would go on with the figure before it.
  const isPlain = low.length === 1 && high.length === 1 && low[0]!.unit.name === high[0]!.unit.name
  return `${text(low)}${isPlain ? ' - ' : ' to '}${text(high)}`
}
