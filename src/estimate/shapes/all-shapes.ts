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
import type { Shape } from './shape.ts'
import type { ShapeName } from './shape-names.ts'
import { strip } from './strip.ts'
import { threeSides } from './three-sides.ts'
import { trapezoid } from './trapezoid.ts'
import { triangle } from './triangle.ts'
import { unevenOffsets } from './uneven-offsets.ts'

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
