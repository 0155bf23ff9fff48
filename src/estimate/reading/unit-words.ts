import { Decimal } from '../../lib/decimal.ts'
import type { UnitSystem } from '../units/units.ts'

/**
 * A unit as people write it: its name is also how we write it; size in metres (square, cubic); follows: the name of the
 * unit that is meant by a bare number right after it.
 */
export interface TypedUnit {
  name: string
  pattern: RegExp
  size: Decimal
  follows: string | null
}

// A unit may run into the x of '20ftx5ft', into no other letter.
const word = (words: string) => new RegExp(`(?:${words})\\.?(?![a-wyz])`, 'y')
const unit = (name: string, pattern: RegExp, size: string, follows: string | null = null): TypedUnit => ({
  name,
  pattern,
  size: new Decimal(size),
  follows,
})

// '20 in length' isn't inches.
const inch = unit(
  'in',
  /"|(?:inches|inch|ins|in(?! (?:length|width|diameter|depth|all|total))|pulgadas?|pulg)\.?(?![a-wyz])/y,
  '0.0254',
)
const LINEAR = '(?:(?:linear|lineal|lin\\.?|running) ?)?'
const foot = unit(
  'ft',
  new RegExp(`'|(?:${LINEAR}(?:feet|foot|fts?)|lf|pies?(?: lineal(?:es)?)?)\\.?(?![a-wyz])`, 'y'),
  '0.3048',
  'in',
)
const yard = unit('yd', word(`${LINEAR}(?:yards?|yds?)|yardas?(?: lineal(?:es)?)?`), '0.9144', 'ft')
const millimetre = unit('mm', word('mm|millimet(?:er|re)s?|milimetros?'), '0.001')
const centimetre = unit('cm', word('cms?|centimet(?:er|re)s?|centimetros?'), '0.01')
const metre = unit('m', word(`${LINEAR}(?:met(?:er|re)s?|m)|metros?(?: lineal(?:es)?)?|mts?`), '1', 'cm')
const paces = unit('paces', word('paces?|steps?|strides?|pasos?'), '1')

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
    'ft²',
    word(
      'sq(?:uare)?\\.? ?(?:feet|foot|ft)|(?:ft|feet|foot) ?(?:\\^|sq(?:uared?)?\\.? ?)?2|(?:ft|feet) sq(?:uared?)?|sf|pies? cuadrados?|pies? ?\\^?2',
    ),
    squareFoot,
  ),
  unit(
    'yd²',
    word('sq(?:uare)?\\.? ?(?:yards?|yds?)|(?:yds?|yards?) ?\\^?2|yardas? cuadradas?|yardas? ?\\^?2'),
    squareYard,
  ),
  unit(
    'm²',
    word(
      'sq(?:uare)?\\.? ?(?:met(?:er|re)s?|m)|(?:met(?:er|re)s?|m) ?\\^?2|sqm|metros? cuadrados?|metros? ?\\^?2|mts?2',
    ),
    '1',
  ),
  unit('acres', word('acres?'), '4046.8564224'),
]

export const volumeUnits: TypedUnit[] = [
  unit(
    'ft³',
    word('cu(?:b(?:ic)?)?\\.? ?(?:feet|foot|ft)|(?:ft|feet|foot) ?\\^?3|cf|pies? cubicos?|pies? ?\\^?3'),
    cubicFoot,
  ),
  unit(
    'yd³',
    word(
      'cu(?:b(?:ic)?)?\\.? ?(?:yards?|yds?)|(?:yds?|yards?) ?\\^?3|cy|yardas? cubicas?|yardas? ?\\^?3|yards?|yds?|yardas?',
    ),
    cubicYard,
  ),
  unit(
    'm³',
    word(
      'cu(?:b(?:ic)?)?\\.? ?(?:met(?:er|re)s?|m)|(?:met(?:er|re)s?|m) ?\\^?3|cbm|metros? cubicos?|metros? ?\\^?3',
    ),
    '1',
  ),
  unit('l', word('lit(?:er|re)s?|litros?|l'), '0.001'),
]
