import type { Shape } from './shape.ts'
import { lengthAndWidth, sidesOutline } from './sides.ts'

export const rectangle: Shape = {
  offered: true,
  icon: [{ path: 'M6 8H50V32H6Z' }],
  sizes: lengthAndWidth,
  area: ({ length, width }) => length!.times(width!),
  formula: ({ length, width }, f) => `${f.length(length!)} × ${f.length(width!)}`,
  edge: ({ length, width }) => length!.plus(width!).times(2),
  elasticities: () => [1, 1],
  formError: () => 'plain',
  impossible: () => null,
  outline: sizes => sidesOutline(sizes, (l, w) => `M0 0H${l}V${w}H0Z`),
}
