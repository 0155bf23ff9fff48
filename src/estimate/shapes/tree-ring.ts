import { pi, two } from '../../lib/decimal.ts'
import { ring } from './ring.ts'
import type { Shape } from './shape.ts'

// By what is left open and how wide the ring is: of two diameters a small error of each is a large one of what lies between.
export const treeRing: Shape = {
  offered: true,
  icon: ring.icon,
  sizes: [
    { name: 'inner', reads: 'length' },
    { name: 'band', reads: 'length' },
  ],
  area: ({ inner, band }) => pi.times(band!).times(inner!.plus(band!)),
  formula: ({ inner, band }, f) => `π × ${f.length(band!)} × (${f.length(inner!)} + ${f.length(band!)})`,
  edge: ({ inner, band }) => pi.times(inner!.plus(band!)).times(two),
  elasticities: ({ inner, band }) => {
    const open = inner!.div(inner!.plus(band!)).toNumber()
    return [open, 2 - open]
  },
  formError: () => 'plain',
  impossible: () => null,
  outline: ({ inner, band }) => {
    const drawn = ring.outline({ outer: inner!.plus(band!.times(two)), inner: inner! })!
    const [width, hole] = [drawn.width, Number(inner!)]
    const side = (width - hole) / 2
    return {
      ...drawn,
      dimensions: [
        ...drawn.dimensions.filter(({ size }) => size === 'inner'),
        { size: 'band', from: [0, width], to: [side, width], place: 'below' },
      ],
    }
  },
}
