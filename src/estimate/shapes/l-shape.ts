import { two } from '../../lib/decimal.ts'
import type { Shape } from './shape.ts'
import { pathNumber } from './svg-path.ts'

// A rectangle less the corner that is cut out of it; the edge is as long as the whole rectangle's.
export const lShape: Shape = {
  offered: false,
  icon: [{ path: 'M12 5H25V22H45V35H12Z' }],
  sizes: [
    { name: 'length', reads: 'length' },
    { name: 'width', reads: 'length' },
    { name: 'cutLength', reads: 'length' },
    { name: 'cutWidth', reads: 'length' },
  ],
  area: ({ length, width, cutLength, cutWidth }) => length!.times(width!).minus(cutLength!.times(cutWidth!)),
  formula: ({ length, width, cutLength, cutWidth }, f) =>
    `${f.length(length!)} × ${f.length(width!)} − ${f.length(cutLength!)} × ${f.length(cutWidth!)}`,
  edge: ({ length, width }) => length!.plus(width!).times(two),
  elasticities: ({ length, width, cutLength, cutWidth }) => {
    const cut = cutLength!.times(cutWidth!).div(length!.times(width!)).toNumber()
    const [whole, corner] = [1 / (1 - cut), -cut / (1 - cut)]
    return [whole, whole, corner, corner]
  },
  formError: () => 'plain',
  impossible: ({ length, width, cutLength, cutWidth }) => {
    if (cutLength!.gte(length!)) return { size: 'cutLength', key: 'fault.cut-length' }
    return cutWidth!.gte(width!) ? { size: 'cutWidth', key: 'fault.cut-width' } : null
  },
  outline: sizes => {
    const [length, width] = [pathNumber(sizes.length!), pathNumber(sizes.width!)]
    const [cut, down] = [pathNumber(length - Number(sizes.cutLength)), pathNumber(sizes.cutWidth!)]
    return {
      width: length,
      height: width,
      path: `M0 0H${cut}V${down}H${length}V${width}H0Z`,
      wall: null,
      dimensions: [
        { size: 'length', from: [0, width], to: [length, width], place: 'below' },
        { size: 'width', from: [0, 0], to: [0, width], place: 'left' },
        { size: 'cutLength', from: [cut, 0], to: [length, 0], place: 'above' },
        { size: 'cutWidth', from: [length, 0], to: [length, down], place: 'right' },
      ],
      notional: false,
    }
  },
}
