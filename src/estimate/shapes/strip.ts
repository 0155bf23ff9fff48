import { rectangle } from './rectangle.ts'
import type { Shape } from './shape.ts'

// A bed along a wall: no edge is cut on the wall's side.
export const strip: Shape = {
  ...rectangle,
  icon: [
    { path: 'M4 9H52', as: 'wall' },
    { path: 'M6 9V25H50V9' },
    { path: 'M6 7L9 3M14 7L17 3M22 7L25 3M30 7L33 3M38 7L41 3M46 7L49 3', as: 'thin' },
  ],
  edge: ({ length, width }) => length!.plus(width!.times(2)),
  outline: sizes => {
    const outline = rectangle.outline(sizes)
    return outline && { ...outline, wall: [0, 0, outline.width, 0] }
  },
}
