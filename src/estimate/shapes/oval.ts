import { Decimal, pi, squareRoot, two, zero } from '../../lib/decimal.ts'
import type { Shape } from './shape.ts'
import { lengthAndWidth, sidesOutline } from './sides.ts'
import { ellipsePath } from './svg-path.ts'

export const oval: Shape = {
  offered: true,
  icon: [{ path: ellipsePath(28, 20, 23, 13) }],
  sizes: lengthAndWidth,
  area: ({ length, width }) => pi.times(length!).times(width!).div(4),
  formula: ({ length, width }, f) => `π × ${f.length(length!)} × ${f.length(width!)} ÷ 4`,
  edge: ({ length, width }) => perimeter(length!.div(two), width!.div(two)),
  elasticities: () => [1, 1],
  formError: () => 'plain',
  impossible: () => null,
  outline: sizes => sidesOutline(sizes, (l, w) => ellipsePath(l / 2, w / 2, l / 2, w / 2)),
}

/** The distance round an ellipse of the two half-axes: the arithmetic-geometric mean (Gauss), to 30 digits. */
function perimeter(one: Decimal, other: Decimal): Decimal {
  let [a, b] = [Decimal.max(one, other), Decimal.min(one, other)]
  const square = a.times(a)
  let lost = square.minus(b.times(b)).div(two)
  for (let weight = zero.plus(1), gap = a.minus(b); gap.gt(a.times('1e-20')); weight = weight.times(two)) {
    const half = gap.div(two)
    lost = lost.plus(half.times(half).times(weight))
    ;[a, b] = [a.plus(b).div(two), squareRoot(a.times(b))]
    gap = a.minus(b)
  }
  return two.times(pi).times(square.minus(lost)).div(a)
}
