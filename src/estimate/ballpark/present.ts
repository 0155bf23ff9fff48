import type { TaxShown } from '../price/shown-tax.ts'
import type { Narrower } from '../scenarios/narrower.ts'
import type { Q } from '../units/units.ts'
import type { Ballpark, Range } from './ballpark.ts'
import type { CautionGiven } from './cautions.ts'

/** What POST /ballpark answers. area and inPlace are of the whole job; beds holds one bed of each entry. */
export interface BallparkAnswer {
  area: Q
  inPlace: Q
  beds: { area: Q; edge: Q | null }[]
  /** What is laid of each material, in the unit that it is sold in. */
  materials: { material: string; amount: Q }[]
  range: Range
  /** Only of a business that charges tax. */
  tax?: TaxShown
  narrower: Narrower | null
  cautions: { code: string; text: string; source: string }[]
  /** Only where something told has two readings: how it was read, and spellings of the other. */
  doubtful?: Doubtful[]
}

export interface Doubtful {
  field: string
  read: string
  or: string[]
}

/** The public answer; `tell` gives what a caution says in the reader's language, and whose word that is. */
export function ballparkAnswer(
  ballpark: Ballpark,
  tell: (caution: CautionGiven) => { text: string; source: string },
): BallparkAnswer {
  return {
    area: ballpark.area,
    inPlace: ballpark.inPlace,
    beds: ballpark.beds.map(({ area, edge }) => ({ area, edge })),
    materials: (ballpark.materials ?? []).map(({ finish, amount }) => ({ material: finish, amount })),
    range: ballpark.range,
    ...(ballpark.tax && { tax: ballpark.tax }),
    narrower: ballpark.narrower,
    cautions: ballpark.cautions.map(caution => ({ code: caution.code, ...tell(caution) })),
  }
}
