import { shapeOf } from '../shapes/all-shapes.ts'
import type { Outline } from '../shapes/outline.ts'
import type { Bed } from './bed.ts'
import { withCutOuts } from './place-cut-outs.ts'
import { toldSizes } from './quantities.ts'

/** How to draw the bed; null for a bed told by its volume. */
export function outlineOf(bed: Bed): Outline | null {
  const outline = shapeOf(bed.shape).outline(toldSizes(bed))
  return outline && withCutOuts(outline, bed.cutOuts)
}
