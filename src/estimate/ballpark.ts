import type { Job } from './bed.ts'
import type { CautionGiven } from './cautions.ts'
import type { RateTable } from './rate-table.ts'
import type { Q } from './units.ts'

export const BALLPARK_METHOD = 1

export interface Range {
  low: string
  likely: string
  high: string
  currency: string
}

/** What would narrow the range most: the bed's index, and the range it would leave; for a visit all null. */
export interface Narrower {
  what: 'sizes' | 'lying' | 'visit'
  bed: number | null
  low: string | null
  high: string | null
}

/** The provisional price range. area and inPlace are of the whole job; beds holds one bed of each entry. */
export interface Ballpark {
  method: number
  area: Q
  inPlace: Q
  beds: { area: Q; edge: Q | null; inPlace: Q }[]
  range: Range
  minimumDecides: boolean
  narrower: Narrower | null
  cautions: CautionGiven[]
}

export function workOutBallpark(_job: Job, _table: RateTable): Ballpark {
  throw new Error('not written yet')
}
