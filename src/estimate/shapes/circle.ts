import { pi } from '../../lib/decimal.ts'
import type { Shape } from './shape.ts'
import { ellipsePath, pathNumber } from './svg-path.ts'

export const circle: Shape = {
  offered: true,
  icon: [{ path: ellipsePath(28, 20, 15, 15) }],
  sizes: [{ name: 'diameter', reads: 'length' }],
  area: ({ diameter }) => pi.times(diameter!).times(diameter!).div(4),
  formula: ({ diameter }, f) => `π × (${f.length(diameter!)})² ÷ 4`,
  edge: ({ diameter }) => pi.times(diameter!),
  elasticities: () => [2],
  formError: () => 'plain',
  impossible: () => null,
  outline: sizes => {
    const across = pathNumber(sizes.diameter!)
    return {
      width: across,
      height: across,
      path: ellipsePath(across / 2, across / 2, across / 2, across / 2),
      wall: null,
      dimensions: [{ size: 'diameter', from: [0, across], to: [across, across], place: 'below' }],
      notional: false,
    }
  },
}
