import type { Measuring, RateTable } from '../../table/rate-table.ts'
import type { Bed } from '../bed.ts'

/**
 * The relative standard errors of a bed: of its area what it shares with every bed of the job and its own, of its edge
 * what it shares.
 */
export interface BedErrors {
  shared: number
  own: number
  edge: number
}

/** A method of the range: how uncertain what was told is taken to be. What was worked out by it names its number. */
export interface Method {
  number: number
  /** The errors of a bed by the way it was measured, or as if it were measured another way. */
  errors(bed: Bed, table: RateTable, by?: Measuring | null): BedErrors
  /** Whether so much is cut out of a bed that no range could hold what is left as often as it promises. */
  tooMuchCutOut(bed: Bed, table: RateTable): boolean
}
