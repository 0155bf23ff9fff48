import type { Box } from './path-rings.ts'

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
  /** What is cut out, its holes drawn in the path; left out where nothing is, or where it couldn't be placed. */
  cutOuts?: PlacedCutOut[]
}

/** A hole in an outline: its box in ft|m from the top left corner, and the index of the cut-out that it is one of. */
export interface PlacedCutOut extends Box {
  of: number
  round: boolean
}
