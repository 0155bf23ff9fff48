import type { Finish } from '../estimate/table/rate-table.ts'
import type { Decimal } from '../lib/decimal.ts'

/**
 * What a job takes along of a material, in one kind of pack or loose: so many units of each so much contents in yd³|m³.
 * scoop is what the yard's loader puts on at a time, in units of what is loose.
 */
export interface Carried {
  jobId: number
  finish: Finish
  /** Which of what is carried it is, for whoever shows it. */
  what: number
  units: Decimal
  contents: Decimal
  isLoose: boolean
  scoop: Decimal
}

/** Whether two are loose of one material, so that a scoop may hold of both. */
export function isSameLoose(one: Carried, other: Carried): boolean {
  return (
    one.isLoose && other.isLoose && one.finish.slug === other.finish.slug && one.contents.eq(other.contents)
  )
}
