import type { Measuring, RateTable } from '../../table/rate-table.ts'
import type { Bed } from '../bed.ts'
import type { FaultKey } from '../fault-keys.ts'

/**
 * The relative standard errors of a bed: what its volume shares with every bed of the job and its own; the own one of
 * its area, whatever is planted there; and the same of its edge.
 */
export interface BedErrors {
  shared: number
  own: number
  ownArea: number
  edge: number
  ownEdge: number
  /** The covariance of the own errors of its volume and its edge; wanting where the one is taken to go wholly with the other. */
  ownBoth?: number
}

/** A bed too uncertain: the field of it, 'sizes.inner', and the key of what to tell instead. */
export interface Refusal {
  field: string
  key: FaultKey
}

/** A method of the range: how uncertain what was told is taken to be. What was worked out by it names its number. */
export interface Method {
  number: number
  /** Whether a range that is nothing but the minimum charge is shown as that one figure, and not rounded to the step. */
  oneAtMinimum: boolean
  /** The errors of a bed by the way it was measured, or as if it were measured another way. */
  errors(bed: Bed, table: RateTable, by?: Measuring | null): BedErrors
  /** Why no range could hold a bed told so as often as it promises, and beside which of its fields to say so; else null. */
  refusal(bed: Bed, table: RateTable): Refusal | null
}
