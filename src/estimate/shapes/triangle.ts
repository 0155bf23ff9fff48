import { squareRoot, two } from '../../lib/decimal.ts'
import type { Shape } from './shape.ts'
import { pathNumber } from './svg-path.ts'

// Base and height leave the other corner free: it is drawn, and its edge reckoned, with two equal sides.
export const triangle: Shape = {
  offered: true,
  icon: [{ path: 'M6 33L22 6L50 33Z' }],
  sizes: [
    { name: 'base', reads: 'length' },
    { name: 'height', reads: 'length' },
  ],
  area: ({ base, height }) => base!.times(height!).div(two),
  formula: ({ base, height }, f) => `${f.length(base!)} × ${f.length(height!)} ÷ 2`,
  edge: ({ base, height }) => {
    const half = base!.div(two)
    const side = squareRoot(half.times(half).plus(height!.times(height!)))
    return base!.plus(side.times(two))
  },
  elasticities: () => [1, 1],
  formError: () => 'plain',
  impossible: () => null,
  outline: sizes => {
    const [base, height] = [pathNumber(sizes.base!), pathNumber(sizes.height!)]
    const middle = pathNumber(base / 2)
    return {
      width: base,
      height,
      path: `M0 ${height}L${middle} 0L${base} ${height}Z`,
      wall: null,
      dimensions: [
        { size: 'base', from: [0, height], to: [base, height], place: 'below' },
        { size: 'height', from: [middle, 0], to: [middle, height], place: 'inside' },
      ],
      notional: false,
    }
  },
}
