import type { Generated, GeneratedAlways } from 'kysely'

/** What something is that is bought in packs: a material, or what an extra needs. */
export type PackOf = 'finish' | 'extra'

/** What is left of a pack, and where ('' is the yard): kept by a trigger on its moves, and never below zero. */
export interface OnHandTable {
  id: GeneratedAlways<number>
  of: PackOf
  slug: string
  pack: string
  spot: string
  /** Packs, or yd³|m³ or tons|tonnes of what is loose. */
  units: Generated<string>
}

export type OnHandMoveKind = 'leftover' | 'purchase' | 'loaded' | 'put back' | 'by hand'

/** What came (above zero) or went, only ever added; by its key it is taken once. */
export interface OnHandMoveTable {
  id: GeneratedAlways<number>
  key: string
  on_hand_id: number
  kind: OnHandMoveKind
  units: string
  quote_request_id: number | null
  note: string
  made_at: string
  made_by: number | null
}

/**
 * What was got of a pack for a work day: bought, brought, or taken from on hand. `pack` is '' where none is listed; contents is
 * what one unit gives, in yd³|m³ (of rolls ft²|m², of pieces ft|m). Only ever added, and undone once.
 */
export interface LoadGotTable {
  id: GeneratedAlways<number>
  key: string
  day: string
  of: PackOf
  slug: string
  pack: string
  delivered: boolean
  on_hand_id: number | null
  units: string
  contents: string
  /** Null where nobody said. */
  paid: string | null
  bought_at: string
  /** The photo of its ticket, a JPEG. */
  ticket: Buffer | null
  made_at: string
  made_by: number
  undone_at: Generated<string | null>
  undone_by: Generated<number | null>
}

/** How much of it is for which job. */
export interface LoadShareTable {
  load_got_id: number
  quote_request_id: number
  units: string
}

/** That the yard had no more of something that a job takes. */
export interface SoldOutAtYardTable {
  quote_request_id: number
  of: PackOf
  slug: string
  told_at: string
  told_by: number
}

/** What is to be taken along always (slug ''), with a material, or with an extra: one a line, as 'Rake / Rastrillo'. */
export interface ThingsAlongTable {
  of: PackOf | 'always'
  slug: string
  things: string
}

export interface ThingOnTruckTable {
  day: string
  thing: string
  made_at: string
  made_by: number
}

/** Who brings or keeps what is ordered; `sells` names packs as 'finish shredded-wood bulk', see orders/suppliers.ts. */
export interface SupplierTable {
  id: GeneratedAlways<number>
  name: string
  phone: string
  /** By when to call, and when the yard is open, in the owner's words. */
  cutoff: string
  hours: string
  /** How many business days before the work something is ordered. */
  lead_days: number
  /** Whether what is picked up there is ordered ahead too. */
  keeps: boolean
  sells: string[]
  saved_at: string
  saved_by: number
  removed_at: Generated<string | null>
}

export type OrderState = 'ordered' | 'confirmed' | 'delivered' | 'canceled'

/** What a supplier is to bring or keep for a work day; one at a time for each supplier, day and pack. */
export interface SupplyOrderTable {
  id: GeneratedAlways<number>
  supplier_id: number
  day: string
  of: PackOf
  slug: string
  pack: string
  /** Brought; else kept until it is picked up. */
  delivered: boolean
  units: string
  state: OrderState
  /** Where it was dropped. */
  dropped: Generated<string>
  /** By what of a load list it was noted as come; null where nothing of the day wanted it. */
  load_got_id: Generated<number | null>
}

export interface SupplyOrderJobTable {
  supply_order_id: number
  quote_request_id: number
}

export interface SupplyOrderStepTable {
  id: GeneratedAlways<number>
  supply_order_id: number
  state: OrderState
  units: string
  note: string
  made_at: string
  made_by: number
}
