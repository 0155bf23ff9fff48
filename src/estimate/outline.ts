import type { Bed } from './bed.ts'
import { toldSizes } from './quantities.ts'
import { shapeOf } from './shape.ts'

/** One dimension line: which size it shows, from where to where, and on which side its figure stands. */
export interface DimensionLine {
  size: string
  from: [number, number]
  to: [number, number]
  place: 'above' | 'below' | 'left' | 'right' | 'inside'
}

/**
 * A bed to draw, in ft|m from the top left corner: path is SVG path data (fill-rule evenodd), wall the line that
 * stands against the wall, notional true when only the area is known and a square of that area stands for it.
 */
export interface Outline {
  width: number
  height: number
  path: string
  wall: [number, number, number, number] | null
  dimensions: DimensionLine[]
  notional: boolean
}

/** How to draw the bed; null for a bed told by its volume. */
export function outlineOf(bed: Bed): Outline | null {
  return shapeOf(bed.shape).outline(toldSizes(bed))
}
