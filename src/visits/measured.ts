import type { BedTold, Told } from '../estimate/job/bed.ts'

/** A bed as measured; `toldBed` is the index of the told bed that it was, null for one found on site. */
export interface MeasuredBed extends BedTold {
  toldBed: number | null
}

export interface Measured extends Told {
  beds: MeasuredBed[]
}

/** What is kept as measured, with each bed's told one where there is one. */
export function asMeasured(kept: Told): Measured {
  const beds = kept.beds.map(bed => ({
    ...bed,
    toldBed: 'toldBed' in bed ? (bed.toldBed as number | null) : null,
  }))
  return { ...kept, beds }
}
