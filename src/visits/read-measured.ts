import type { BedTold, Told } from '../estimate/job/bed.ts'
import { MOST_BEDS_OF_STAFF, readTold, type ToldReading } from '../estimate/reading/read-beds.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { jobStored, type StoredBeds } from '../estimate/understood/stored.ts'

/** Reads beds as measured. Sizes that stand as the homeowner told them mean what was understood then. */
export function readMeasured(measured: Told, before: StoredBeds, table: RateTable): ToldReading {
  const alike = measured.beds.map(bed => isAsTold(bed, before.told))
  const most = MOST_BEDS_OF_STAFF
  if (!alike.includes(true)) return readTold(measured, table, { most })
  const stored = jobStored(before, table)
  const understood = stored.ok ? stored.job.beds : stored.readable
  const known = (index: number) =>
    alike[index] ? (understood[measured.beds[index]!.toldBed!] ?? undefined) : undefined
  return readTold(measured, table, { most, known })
}

/** Whether a measured bed has the sizes of the told one that it is, told in the same way. */
export function isAsTold(bed: BedTold, told: Told): boolean {
  const before = toldBedOf(bed, told)
  return (
    before !== undefined &&
    before.shape === bed.shape &&
    same(before.sizes, bed.sizes) &&
    before.measuredBy === bed.measuredBy
  )
}

export function toldBedOf({ toldBed }: Pick<BedTold, 'toldBed'>, told: Told): BedTold | undefined {
  return typeof toldBed === 'number' ? told.beds[toldBed] : undefined
}

function same(one: Record<string, string>, other: Record<string, string>): boolean {
  return Object.keys(one).every(name => one[name] === other[name])
}
