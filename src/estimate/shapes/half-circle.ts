import { one, pi } from '../../lib/decimal.ts'
import type { Shape } from './shape.ts'
import { pathNumber } from './svg-path.ts'

// Told by the diameter, which is its straight side.
export const halfCircle: Shape = {
  offered: false,
  icon: [{ path: 'M6 31A22 22 0 0 1 50 31Z' }],
  sizes: [{ name: 'diameter', reads: 'length' }],
  area: ({ diameter }) => pi.times(diameter!).times(diameter!).div(8),
  formula: ({ diameter }, f) => `π × (${f.length(diameter!)})² ÷ 8`,
  edge: ({ diameter }) => diameter!.times(pi.div(2).plus(one)),
  elasticities: () => [2],
  formError: () => 'plain',
  impossible: () => null,
  outline: sizes => {
    const across = pathNumber(sizes.diameter!)
    const radius = pathNumber(across / 2)
    return {
      width: across,
      height: radius,
      path: `M0 ${radius}A${radius} ${radius} 0 0 1 ${across} ${radius}Z`,
      wall: null,
      dimensions: [{ size: 'diameter', from: [0, radius], to: [across, radius], place: 'below' }],
      notional: false,
    }
  },
}
