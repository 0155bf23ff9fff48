import { refusal } from '../2/refusal.ts'
import type { Method } from '../method.ts'
import { bedErrors } from './errors.ts'

/**
 * The third method: as the second, but the own error of an edge goes with that of the volume only as far as both come from the
 * same sizes.
 */
export const method3: Method = { number: 3, oneAtMinimum: true, errors: bedErrors, refusal }
