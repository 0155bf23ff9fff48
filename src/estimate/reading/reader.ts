import type { Decimal } from '../../lib/decimal.ts'
import { newestMethod } from '../job/methods/all-methods.ts'
import type { Method } from '../job/methods/method.ts'
import { type ShapeName, shapeUnderstood } from '../shapes/all-shapes.ts'
import type { UnitSystem } from '../units/units.ts'
import { readArea } from './areas.ts'
import { readDepth, readLength, readVolume } from './lengths.ts'
import { type Listed, partList } from './lists.ts'
import type { MeasureReading } from './measure.ts'
import { scan } from './typed.ts'

/**
 * How the text of a single box is understood. What gets better from one reader to the next is in here; a reader by
 * which anything was ever stored unread stays as it was, under `readers/`.
 */
export interface Reader {
  /** The method that says which beds are too uncertain. */
  method: Method
  /** The shape by which one that is told is understood. */
  shape(told: ShapeName): ShapeName
  /** The text with odd signs, spaces and accents made plain. */
  plain(typed: string): string
  length(typed: string, system: UnitSystem, pace: Decimal): MeasureReading
  depth(typed: string, system: UnitSystem, least?: Decimal): MeasureReading
  area(typed: string, system: UnitSystem): MeasureReading
  volume(typed: string, system: UnitSystem): MeasureReading
  /** The entries of a list that was typed in one box. */
  list(typed: string, system: UnitSystem): Listed
  /** What ends a cut-out that is told by how far it is across. */
  across: RegExp
  /** Whether of a bed told without layers those are meant that its finish usually has. */
  usualLayers: boolean
}

/** The reader of everything that is typed from now on. */
export const todaysReader: Reader = {
  method: newestMethod,
  shape: shapeUnderstood,
  plain: typed => scan(typed).text,
  length: readLength,
  depth: readDepth,
  area: readArea,
  volume: readVolume,
  list: partList,
  // Not '12 in diameter', which could be inches.
  across:
    /(?:across|(?<=[a-z'"] )in diameter|(?<!\bin )diamet(?:er|ro)|de diametro|diam\.?|(?:de )?ancho|de lado a lado|circles?|circulos?)$/,
  usualLayers: true,
}
