import type { LayerTold, StopTold } from '../estimate/job/bed.ts'
import type { BedTyped } from '../requests/bed-typed.ts'

/** A bed as typed on the sheet. */
export interface SheetBed extends BedTyped {
  toldBed: number | null
  /** Its sizes are as the homeowner told them. */
  asTold: boolean
  dropped: boolean
  /** Said in place of `lying`, which is '' then. */
  lyingDepth: string
  /** From the top down; a row with nothing picked is none. */
  layers: LayerTold[]
}

export interface Sheet {
  measuredBy: string
  extras: string[]
  /** None of most jobs; else every bed is at one of them. */
  stops: SheetStop[]
  beds: SheetBed[]
}

/** A stop as typed on the sheet; left out, its beds are too. */
export interface SheetStop extends StopTold {
  dropped: boolean
}
