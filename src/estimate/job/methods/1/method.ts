import type { Method } from '../method.ts'
import { bedErrors, tooMuchCutOut } from './errors.ts'

/** The first method, with its caps. Frozen, all of this folder: stored ballparks are worked out again by it. */
export const method1: Method = {
  number: 1,
  oneAtMinimum: false,
  errors: bedErrors,
  refusal: tooMuchCutOut,
}
