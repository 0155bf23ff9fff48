import { rectangle } from './rectangle.ts'
import type { Shape } from './shape.ts'

// A bed along a wall: no edge is cut on the wall's side.
export const strip: Shape = {
  ...rectangle,
  edge: ({ length, width }) => length!.plus(width!.times(2)),
  outline: sizes => {
    const outline = rectangle.outline(sizes)
    return outline && { ...outline, wall: [0, 0, outline.width, 0] }
  },
}
