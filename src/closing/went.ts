import type { PackOf } from '../db/schema/goods.ts'
import type { JobHoursTable } from '../db/schema/jobs.ts'

/** So many of a pack; see JobUsedTable. */
export interface PackCounted {
  of: PackOf
  slug: string
  pack: string
  units: string
}

export interface PackUsed extends PackCounted {
  planned: string
}

export interface PackLeft extends PackCounted {
  goes: 'on hand' | 'customer'
}

export type HoursWorked = Pick<JobHoursTable, 'account_id' | 'name' | 'task' | 'minutes'>

/** `typed_by` is who may see it besides the owner. */
export interface DumpFee {
  amount: string
  words: string
  typed_by: number
}

export interface ShareDone {
  position: number
  stop: number | null
  share: string
}

/** What is done of a job and what it took in all, the days before included. */
export interface Went {
  outcome: 'done' | 'part done' | 'stopped'
  firstDay: string
  lastDay: string
  trips: number | null
  note: string
  used: PackUsed[]
  left: PackLeft[]
  hours: HoursWorked[]
  fees: DumpFee[]
  /** When the rest is done and how many labor hours it needs; of what is part done alone. */
  rest: { day: string; hours: string } | null
  /** What of each line is done; of what was stopped alone. */
  shares: ShareDone[]
}
