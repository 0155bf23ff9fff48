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
import type { AskedSize, Shape } from './shape.ts'
import { strip } from './strip.ts'
import { threeSides } from './three-sides.ts'
import { trapezoid } from './trapezoid.ts'
import { treeRing } from './tree-ring.ts'
import { triangle } from './triangle.ts'
import { twoArms } from './two-arms.ts'
import { unevenOffsets } from './uneven-offsets.ts'
import { unevenWidths } from './uneven-widths.ts'

/**
 * Every shape by the name that it is told by. The size fields of the forms stand in the order in which they come up
 * here; of the shapes themselves those that homeowners are offered come first.
 */
export const shapes = {
  rectangle,
  strip,
  curvy,
  circle,
  'circle-round': circleRound,
  'half-circle': halfCircle,
  'quarter-circle': quarterCircle,
  oval,
  triangle,
  'tree-ring': treeRing,
  'two-arms': twoArms,
  ring,
  sides: threeSides,
  trapezoid,
  'l-shape': lShape,
  offsets,
  'uneven-offsets': unevenOffsets,
  'uneven-widths': unevenWidths,
  radii,
  area: plainArea,
  volume: plainVolume,
} satisfies Record<string, Shape>

export type ShapeName = keyof typeof shapes

/**
 * Tellings that are understood otherwise than they were, each with the shape that they are understood by from now on. Nobody tells
 * that one by its name, and what was understood before keeps the shape that it has.
 */
const UNDERSTOOD_AS = { 'uneven-offsets': 'uneven-widths' } as const

/** A shape that can be told. */
export type ToldShape = Exclude<ShapeName, (typeof UNDERSTOOD_AS)[keyof typeof UNDERSTOOD_AS]>

const understoodAs: Partial<Record<ShapeName, ShapeName>> = UNDERSTOOD_AS

/** The shape by which what is told as another is understood. */
export function shapeUnderstood(told: ShapeName): ShapeName {
  return understoodAs[told] ?? told
}

/** What a shape that was understood is told as. */
export function shapeTold(understood: ShapeName): ToldShape {
  return registered().find(told => shapeUnderstood(told) === understood) ?? (understood as ToldShape)
}

export function shapeOf(name: ShapeName): Shape {
  return shapes[name]
}

export function isShapeName(name: string): name is ToldShape {
  return registered().some(shape => shape === name)
}

/** The shapes that homeowners are offered, in the order in which they are. */
export function offeredShapes(): ToldShape[] {
  return registered().filter(name => shapeOf(name).offered)
}

/** Every shape: those that homeowners are offered, then the others. */
export function shapeNames(): ToldShape[] {
  return [...offeredShapes(), ...registered().filter(name => !shapeOf(name).offered)]
}

/** A size that a form asks for, and which of its shapes have it. */
export interface SizeField extends AskedSize {
  shapes: ToldShape[]
}

/** Every size that these shapes ask for, each once; one that only a later shape has stands before what follows it there. */
export function sizeFields(among: readonly ShapeName[]): SizeField[] {
  const fields: SizeField[] = []
  const at = (size: AskedSize | undefined) => fields.findIndex(({ name }) => name === size?.name)
  for (const shape of registered().filter(name => among.includes(name))) {
    const { sizes } = shapeOf(shape)
    for (const [index, size] of sizes.entries()) {
      const known = fields[at(size)]
      if (known) known.shapes.push(shape)
      else {
        const next = sizes.slice(index + 1).find(later => at(later) >= 0)
        fields.splice(next ? at(next) : fields.length, 0, { ...size, shapes: [shape] })
      }
    }
  }
  return fields
}

function registered(): ToldShape[] {
  const understood: ShapeName[] = Object.values(UNDERSTOOD_AS)
  return (Object.keys(shapes) as ShapeName[]).filter((name): name is ToldShape => !understood.includes(name))
}
