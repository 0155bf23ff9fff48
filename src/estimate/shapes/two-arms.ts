import { two } from '../../lib/decimal.ts'
import type { Shape } from './shape.ts'
import { pathNumber } from './svg-path.ts'

// An L: the first arm whole, the second from the first one's side on. Nothing is taken off, so small errors stay small.
export const twoArms: Shape = {
  offered: true,
  icon: [{ path: 'M12 5H25V22H45V35H12Z' }, { path: 'M12 22H25', as: 'dashed' }],
  sizes: [
    { name: 'length', reads: 'length' },
    { name: 'width', reads: 'length' },
    { name: 'armLength', reads: 'length' },
    { name: 'armWidth', reads: 'length' },
  ],
  area: ({ length, width, armLength, armWidth }) => length!.times(width!).plus(armLength!.times(armWidth!)),
  formula: ({ length, width, armLength, armWidth }, f) =>
    `${f.length(length!)} × ${f.length(width!)} + ${f.length(armLength!)} × ${f.length(armWidth!)}`,
  edge: ({ length, width, armLength }) => length!.plus(width!).plus(armLength!).times(two),
  elasticities: ({ length, width, armLength, armWidth }) => {
    const first = length!.times(width!)
    const share = first.div(first.plus(armLength!.times(armWidth!))).toNumber()
    return [share, share, 1 - share, 1 - share]
  },
  formError: () => 'plain',
  impossible: ({ length, armWidth }) =>
    armWidth!.gt(length!) ? { size: 'armWidth', key: 'fault.arm-width' } : null,
  rectangles: ({ length, width, armLength, armWidth }) => [
    [length!, width!],
    [armLength!, armWidth!],
  ],
  outline: sizes => {
    const [length, width] = [pathNumber(sizes.length!), pathNumber(sizes.width!)]
    const [arm, across] = [pathNumber(sizes.armLength!), pathNumber(sizes.armWidth!)]
    const height = pathNumber(arm + width)
    return {
      width: length,
      height,
      path: `M0 0H${across}V${arm}H${length}V${height}H0Z`,
      wall: null,
      dimensions: [
        { size: 'length', from: [0, height], to: [length, height], place: 'below' },
        { size: 'width', from: [length, arm], to: [length, height], place: 'right' },
        { size: 'armLength', from: [0, 0], to: [0, arm], place: 'left' },
        { size: 'armWidth', from: [0, 0], to: [across, 0], place: 'above' },
      ],
      notional: false,
    }
  },
}
