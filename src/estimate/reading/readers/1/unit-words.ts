import { Decimal } from '../../../../lib/decimal.ts'
import type { UnitSystem } from '../../../units/units.ts'

/** A unit as people write it; size in metres (square, cubic); follows: the size meant by a bare number right after it. */
export interface TypedUnit {
  name: string
  pattern: RegExp
  size: Decimal
  follows: Decimal | null
}

// A unit may run into the x of '20ftx5ft', into no other letter.
const word = (words: string) => new RegExp(`(?:${words})\\.?(?![a-wyz])`, 'y')
const unit = (name: string, pattern: RegExp, size: string, follows: string | null = null): TypedUnit => ({
  name,
  pattern,
  size: new Decimal(size),
  follows: follows === null ? null : new Decimal(follows),
})

const inch = unit('in', /"|(?:inches|inch|ins|in|pulgadas?|pulg)\.?(?![a-wyz])/y, '0.0254')
const foot = unit('ft', /'|(?:feet|foot|fts?|pies?)\.?(?![a-wyz])/y, '0.3048', '0.0254')
const yard = unit('yd', word('yards?|yds?|yardas?'), '0.9144', '0.3048')
const millimetre = unit('mm', word('mm|millimet(?:er|re)s?|milimetros?'), '0.001')
const centimetre = unit('cm', word('cms?|centimet(?:er|re)s?|centimetros?'), '0.01')
const metre = unit('m', word('met(?:er|re)s?|metros?|mts?|m'), '1', '0.01')
const paces = unit('pace', word('paces?|steps?|strides?|pasos?'), '1')

/** The units of a depth. */
export const depthUnits: TypedUnit[] = [inch, foot, yard, millimetre, centimetre, metre]

/** The units of a length. A pace is the business's own, in ft|m. */
export function lengthUnits(system: UnitSystem, pace: Decimal): TypedUnit[] {
  return [...depthUnits, { ...paces, size: pace.times(system.metresPerLength) }]
}

const squareFoot = '0.09290304'
const squareYard = '0.83612736'
const cubicFoot = '0.028316846592'
const cubicYard = '0.764554857984'

export const areaUnits: TypedUnit[] = [
  unit(
    'ft2',
    word('sq(?:uare)?\\.? ?(?:feet|foot|ft)|ft ?\\^?2|feet ?\\^?2|sf|pies? cuadrados?|pies? ?\\^?2'),
    squareFoot,
  ),
  unit('yd2', word('sq(?:uare)?\\.? ?(?:yards?|yds?)|yd ?\\^?2|yardas? cuadradas?'), squareYard),
  unit('m2', word('sq(?:uare)?\\.? ?(?:met(?:er|re)s?|m)|m ?\\^?2|sqm|metros? cuadrados?'), '1'),
  unit('acre', word('acres?'), '4046.8564224'),
]

export const volumeUnits: TypedUnit[] = [
  unit('ft3', word('cu(?:bic)?\\.? ?(?:feet|foot|ft)|ft ?\\^?3|cf|pies? cubicos?|pies? ?\\^?3'), cubicFoot),
  unit(
    'yd3',
    word('cu(?:bic)?\\.? ?(?:yards?|yds?)|yds? ?\\^?3|cy|yardas? cubicas?|yards?|yds?|yardas?'),
    cubicYard,
  ),
  unit('m3', word('cu(?:bic)?\\.? ?(?:met(?:er|re)s?|m)|m ?\\^?3|cbm|metros? cubicos?'), '1'),
  unit('l', word('lit(?:er|re)s?|litros?|l'), '0.001'),
]

export const aboutBefore =
  /(?:~|≈|(?:about|abt|approx|approximately|around|roughly|circa|ca|c|maybe|some|say|unos|unas|como|aprox|aproximadamente|cerca de|alrededor de|mas o menos)\.?(?![a-z]))/y
export const aboutAfter = /(?:\?|-?ish|or so|approx|about|aprox|mas o menos)\.?(?![a-z])/y
export const fromWord = /(?:from|between|entre|de)(?![a-z])/y
export const toWord = /-|(?:to|or|and|hasta|a|o|y)(?![a-z])/y
export const byWord = /x|(?:by|por)(?![a-z])/y
