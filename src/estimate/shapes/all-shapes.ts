import type { Decimal } from '../../lib/decimal.ts'
import type { ShapeName, Size } from '../job/bed.ts'
import type { Outline } from '../job/outline.ts'
import { circle } from './circle.ts'
import { circleRound } from './circle-round.ts'
import { curvy } from './curvy.ts'
import { halfCircle } from './half-circle.ts'
import { lShape } from './l-shape.ts'
import { offsets } from './offsets.ts'
import { oval } from './oval.ts'
import { plainArea } from './plain-area.ts'
import { plainVolume } from './plain-volume.ts'
import { quarterCircle } from './quarter-circle.ts'
import { radii } from './radii.ts'
import { rectangle } from './rectangle.ts'
import { ring } from './ring.ts'
import { strip } from './strip.ts'
import { threeSides } from './three-sides.ts'
import { trapezoid } from './trapezoid.ts'
import { triangle } from './triangle.ts'
import { unevenOffsets } from './uneven-offsets.ts'

/** The sizes a shape is told by, in ft|m, ft²|m² or ft³|m³; of a list, each entry by itself, as 'offsets.0'. */
export type Sizes = Record<string, Decimal>

/** One shape a bed can have. */
export interface Shape {
  /** What is asked for, in the order asked. */
  sizes: readonly { name: string; reads: 'length' | 'area' | 'volume' | 'lengths' }[]
  /** In ft²|m². The depth, in ft|m, matters only where a volume was told. */
  area(sizes: Sizes, depth: Decimal): Decimal
  /** The outline that gets an edge, in ft|m; null where it isn't known. */
  edge(sizes: Sizes): Decimal | null
  /** How strongly the area follows each size: size ÷ area × ∂area/∂size, in the order of sizes, lists unfolded. */
  elasticities(sizes: Sizes): number[]
  /** A relative standard error of its own beside that of measuring: how roughly the shape describes a bed. */
  ownError: number
  /** Sizes that can't be together: which one is wrong, and the key of the message; null when they can. */
  impossible(sizes: Sizes): { size: string; key: string } | null
  /** How it is drawn; null where there is nothing to draw. */
  outline(sizes: Sizes): Outline | null
}

const shapes: Record<ShapeName, Shape> = {
  rectangle,
  strip,
  curvy,
  circle,
  oval,
  triangle,
  ring,
  area: plainArea,
  volume: plainVolume,
  'circle-round': circleRound,
  'half-circle': halfCircle,
  'quarter-circle': quarterCircle,
  sides: threeSides,
  trapezoid,
  'l-shape': lShape,
  offsets,
  'uneven-offsets': unevenOffsets,
  radii,
}

export function shapeOf(name: ShapeName): Shape {
  return shapes[name]
}

/** Sizes as told, without how they were told. */
export function valuesOf(sizes: Record<string, Size>): Sizes {
  return Object.fromEntries(Object.entries(sizes).map(([name, size]) => [name, size.value]))
}
