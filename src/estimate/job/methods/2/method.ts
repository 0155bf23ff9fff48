import type { Method } from '../method.ts'
import { bedErrors } from './errors.ts'
import { refusal } from './refusal.ts'

/**
 * The second method: every shape has an error of form, the share planted an error of its own, edges an own part. Nothing
 * is capped; what is too uncertain is refused.
 */
export const method2: Method = { number: 2, oneAtMinimum: true, errors: bedErrors, refusal }
