import { pi } from '../../lib/decimal.ts'
import type { Shape } from './shape.ts'
import { ellipsePath, pathNumber } from './svg-path.ts'

// Round a tree: both diameters are told, both circles are edge. A narrow one is better told by `treeRing`.
export const ring: Shape = {
  offered: false,
  icon: [
    { path: ellipsePath(28, 20, 16, 16) },
    { path: ellipsePath(28, 20, 6, 6) },
    { path: ellipsePath(28, 20, 1.5, 1.5), as: 'solid' },
  ],
  sizes: [
    { name: 'outer', reads: 'length' },
    { name: 'inner', reads: 'length' },
  ],
  area: ({ outer, inner }) => pi.times(outer!.plus(inner!)).times(outer!.minus(inner!)).div(4),
  formula: ({ outer, inner }, f) => `π × ((${f.length(outer!)})² − (${f.length(inner!)})²) ÷ 4`,
  edge: ({ outer, inner }) => pi.times(outer!.plus(inner!)),
  elasticities: ({ outer, inner }) => {
    const hole = inner!.div(outer!).toNumber() ** 2
    return [2 / (1 - hole), (-2 * hole) / (1 - hole)]
  },
  formError: () => 'plain',
  impossible: ({ outer, inner }) =>
    inner!.gte(outer!.times('0.999999')) ? { size: 'inner', key: 'fault.ring-inner' } : null,
  outline: sizes => {
    const [outer, inner] = [pathNumber(sizes.outer!), pathNumber(sizes.inner!)]
    const [middle, hole] = [outer / 2, inner / 2]
    return {
      width: outer,
      height: outer,
      path: ellipsePath(middle, middle, middle, middle) + ellipsePath(middle, middle, hole, hole),
      wall: null,
      dimensions: [
        { size: 'outer', from: [0, outer], to: [outer, outer], place: 'below' },
        { size: 'inner', from: [middle - hole, middle], to: [middle + hole, middle], place: 'inside' },
      ],
      notional: false,
    }
  },
}
