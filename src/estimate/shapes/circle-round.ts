import { pi } from '../../lib/decimal.ts'
import { circle } from './circle.ts'
import type { Shape } from './shape.ts'
import { ellipsePath } from './svg-path.ts'

// Where a trunk or a pond stands in the middle, the tape goes round.
export const circleRound: Shape = {
  offered: false,
  icon: [
    { path: ellipsePath(28, 20, 15, 15) },
    { path: 'M28 1A19 19 0 1 1 12 10M9 13L12 9L16 12', as: 'thin' },
  ],
  sizes: [{ name: 'round', reads: 'length' }],
  area: ({ round }) => round!.times(round!).div(pi).div(4),
  formula: ({ round }, f) => `(${f.length(round!)})² ÷ (4 × π)`,
  edge: ({ round }) => round!,
  elasticities: () => [2],
  formError: () => 'plain',
  impossible: () => null,
  outline: ({ round }) => ({ ...circle.outline({ diameter: round!.div(pi) })!, dimensions: [] }),
}
