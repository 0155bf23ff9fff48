import type { TaxShown } from '../price/shown-tax.ts'
import type { Narrower } from '../scenarios/narrower.ts'
import type { CautionCode } from '../table/caution.ts'
import type { Q } from '../units/units.ts'
import type { Ballpark, Range } from './ballpark.ts'

/** What POST /ballpark answers. area and inPlace are of the whole job; beds holds one bed of each entry. */
export interface BallparkAnswer {
  area: Q
  inPlace: Q
  beds: { area: Q; edge: Q | null }[]
  range: Range
  /** Only of a business that charges tax. */
  tax?: TaxShown
  narrower: Narrower | null
  cautions: { code: CautionCode; text: string; source: string }[]
  /** Only where something told has two readings: how it was read, and spellings of the other. */
  doubtful?: Doubtful[]
}

export interface Doubtful {
  field: string
  read: string
  or: string[]
}

/** The public answer; textOf gives the message catalogue's text in the reader's language. */
export function ballparkAnswer(
  ballpark: Ballpark,
  textOf: (key: `caution.${CautionCode}`, params: Record<string, string>) => string,
): BallparkAnswer {
  return {
    area: ballpark.area,
    inPlace: ballpark.inPlace,
    beds: ballpark.beds.map(({ area, edge }) => ({ area, edge })),
    range: ballpark.range,
    ...(ballpark.tax && { tax: ballpark.tax }),
    narrower: ballpark.narrower,
    cautions: ballpark.cautions.map(({ code, params, source }) => ({
      code,
      text: textOf(`caution.${code}`, params),
      source,
    })),
  }
}
