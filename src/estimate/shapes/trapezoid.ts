import { squareRoot, two } from '../../lib/decimal.ts'
import type { Shape } from './shape.ts'
import { pathNumber } from './svg-path.ts'

// (A + B) ÷ 2 × h (University of Missouri, 2010). Where the slanting sides stand is left open: it is drawn, and its edge
// reckoned, with two equal ones.
export const trapezoid: Shape = {
  offered: false,
  icon: [{ path: 'M17 8H39L51 32H5Z' }],
  sizes: [
    { name: 'base', reads: 'length' },
    { name: 'top', reads: 'length' },
    { name: 'height', reads: 'length' },
  ],
  area: ({ base, top, height }) => base!.plus(top!).times(height!).div(two),
  formula: ({ base, top, height }, f) =>
    `(${f.length(base!)} + ${f.length(top!)}) ÷ 2 × ${f.length(height!)}`,
  edge: ({ base, top, height }) => {
    const lean = base!.minus(top!).div(two)
    const side = squareRoot(lean.times(lean).plus(height!.times(height!)))
    return base!.plus(top!).plus(side.times(two))
  },
  elasticities: ({ base, top }) => {
    const share = base!.div(base!.plus(top!)).toNumber()
    return [share, 1 - share, 1]
  },
  formError: () => 'plain',
  impossible: () => null,
  outline: sizes => {
    const [base, top, height] = [pathNumber(sizes.base!), pathNumber(sizes.top!), pathNumber(sizes.height!)]
    const width = Math.max(base, top)
    const [low, high] = [pathNumber((width - base) / 2), pathNumber((width - top) / 2)]
    return {
      width,
      height,
      path: `M${low} ${height}L${high} 0H${pathNumber(high + top)}L${pathNumber(low + base)} ${height}Z`,
      wall: null,
      dimensions: [
        { size: 'base', from: [low, height], to: [pathNumber(low + base), height], place: 'below' },
        { size: 'top', from: [high, 0], to: [pathNumber(high + top), 0], place: 'above' },
        { size: 'height', from: [width / 2, 0], to: [width / 2, height], place: 'inside' },
      ],
      notional: false,
    }
  },
}
