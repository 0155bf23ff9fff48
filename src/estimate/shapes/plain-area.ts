import type { Shape } from './shape.ts'
import { pathNumber } from './svg-path.ts'

// Measured as a length is, so its error is twice a length's. Drawn as a square, since its form isn't known.
export const plainArea: Shape = {
  offered: true,
  icon: [
    { path: 'M12 4H44V36H12Z', as: 'dashed' },
    { path: 'M12 14H44M12 25H44M23 4V36M34 4V36', as: 'thin' },
  ],
  sizes: [{ name: 'area', reads: 'area' }],
  area: ({ area }) => area!,
  formula: () => 'as told',
  edge: () => null,
  elasticities: () => [2],
  formError: () => 'plain',
  impossible: () => null,
  outline: sizes => {
    const side = pathNumber(sizes.area!.sqrt())
    const path = `M0 0H${side}V${side}H0Z`
    return { width: side, height: side, path, wall: null, dimensions: [], notional: true }
  },
}
