import { shapeOf } from '../shapes/all-shapes.ts'
import type { Outline } from '../shapes/outline.ts'
import type { Bed } from './bed.ts'
import { withCutOuts } from './place-cut-outs.ts'
import { toldSizes } from './quantities.ts'

const known = new WeakMap<Bed, Outline | null>()

/** How to draw the bed; null for a bed told by its volume. Worked out once, as finding room for cut-outs takes long. */
export function outlineOf(bed: Bed): Outline | null {
  const before = known.get(bed)
  if (before !== undefined) return before
  const plain = plainOutlineOf(bed)
  const outline = plain && withCutOuts(plain, bed.cutOuts)
  known.set(bed, outline)
  return outline
}

/** The same with nothing cut out of it, for how large it is. */
export function plainOutlineOf(bed: Bed): Outline | null {
  return shapeOf(bed.shape).outline(toldSizes(bed))
}
