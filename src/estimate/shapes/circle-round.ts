import { pi } from '../../lib/decimal.ts'
import { circle } from './circle.ts'
import { PLAIN_FORM, type Shape } from './shape.ts'

// Where a trunk or a pond stands in the middle, the tape goes round.
export const circleRound: Shape = {
  offered: false,
  icon: [],
  sizes: [{ name: 'round', reads: 'length' }],
  area: ({ round }) => round!.times(round!).div(pi).div(4),
  formula: ({ round }, f) => `(${f.length(round!)})² ÷ (4 × π)`,
  edge: ({ round }) => round!,
  elasticities: () => [2],
  formError: () => PLAIN_FORM,
  impossible: () => null,
  outline: ({ round }) => ({ ...circle.outline({ diameter: round!.div(pi) })!, dimensions: [] }),
}
