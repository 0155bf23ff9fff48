import type { Bed, Fault, Job } from './bed.ts'
import type { RateTable } from './rate-table.ts'

export type ToldReading =
  | { ok: true; job: Job; echoes: Record<string, string> }
  | { ok: false; faults: Fault[]; echoes: Record<string, string>; readable: (Bed | null)[] }

/** Reads beds as typed in a form or sent as JSON; never throws, whatever is sent. Every fault has its field. */
export function readTold(_body: unknown, _table: RateTable): ToldReading {
  throw new Error('not written yet')
}
