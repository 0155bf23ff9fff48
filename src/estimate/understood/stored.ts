import type { Told } from '../job/bed.ts'
import { readTold } from '../reading/read-beds.ts'
import { reader1 } from '../reading/readers/1/reader.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { JobUnderstood } from './format.ts'
import { type Recalled, recallJob } from './recall.ts'
import { recordJob } from './record.ts'

/** Beds as stored: what was typed, for showing, and what was understood, null where that was never kept. */
export interface StoredBeds {
  told: Told
  understood: JobUnderstood | null
}

/**
 * A request's beds as told and, once there was a visit, as measured; each with what was understood. `agreed` are those of
 * a price that was accepted with what was picked beside it, until they are measured anew.
 */
export interface Requested extends StoredBeds {
  measured: Told | null
  measured_understood: JobUnderstood | null
  agreed?: StoredBeds | null
}

/** The beds that a request's price is worked out from: as agreed, else as measured, else as told. */
export function bedsOf({ told, understood, measured, measured_understood, agreed }: Requested): StoredBeds {
  if (agreed) return agreed
  return measured ? { told: measured, understood: measured_understood } : { told, understood }
}

/** The same beds, at the place's postcode where none was told. */
export function withPostcode({ told, understood }: StoredBeds, place: string): StoredBeds {
  const postcode = told.postcode || place
  return { told: { ...told, postcode }, understood: understood && { ...understood, postcode } }
}

/**
 * A stored job by a rate table: from what was understood. Where that was never kept, what was typed means what it meant
 * to the reader of that time.
 */
export function jobStored({ told, understood }: StoredBeds, table: RateTable): Recalled {
  return understood ? recallJob(understood, table) : readTold(told, table, { reader: reader1 })
}

/** What the reader of that time understood of beds that were stored without; null where it can't be read. */
export function understoodThen(told: Told, table: RateTable): JobUnderstood | null {
  const reading = readTold(told, table, { reader: reader1 })
  return reading.ok ? recordJob(reading.job, table.units) : null
}
