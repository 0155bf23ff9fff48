import { pi, two } from '../../lib/decimal.ts'
import type { Shape } from './shape.ts'
import { pathNumber } from './svg-path.ts'

// A bed in a corner: told by one of its two straight sides.
export const quarterCircle: Shape = {
  offered: false,
  icon: [{ path: 'M13 35V5A30 30 0 0 1 43 35Z' }],
  sizes: [{ name: 'radius', reads: 'length' }],
  area: ({ radius }) => pi.times(radius!).times(radius!).div(4),
  formula: ({ radius }, f) => `π × (${f.length(radius!)})² ÷ 4`,
  edge: ({ radius }) => radius!.times(pi.div(2).plus(two)),
  elasticities: () => [2],
  formError: () => 'plain',
  impossible: () => null,
  outline: sizes => {
    const radius = pathNumber(sizes.radius!)
    return {
      width: radius,
      height: radius,
      path: `M0 0A${radius} ${radius} 0 0 1 ${radius} ${radius}H0Z`,
      wall: null,
      dimensions: [{ size: 'radius', from: [0, radius], to: [radius, radius], place: 'below' }],
      notional: false,
    }
  },
}
