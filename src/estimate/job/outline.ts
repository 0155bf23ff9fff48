import { once } from '../../lib/once.ts'
import { shapeOf } from '../shapes/all-shapes.ts'
import type { Outline } from '../shapes/outline.ts'
import type { Bed } from './bed.ts'
import { withCutOuts } from './place-cut-outs.ts'
import { toldSizes } from './quantities.ts'

/** How to draw the bed; null for a bed told by its volume. Worked out once, as finding room for cut-outs takes long. */
export const outlineOf = once((bed: Bed): Outline | null => {
  const plain = plainOutlineOf(bed)
  return plain && withCutOuts(plain, bed.cutOuts)
})

/** The same with nothing cut out of it, for how large it is. */
export function plainOutlineOf(bed: Bed): Outline | null {
  return shapeOf(bed.shape).outline(toldSizes(bed))
}
