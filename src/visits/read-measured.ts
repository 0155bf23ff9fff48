import { isDeepStrictEqual } from 'node:util'
import type { Bed, BedTold, Told } from '../estimate/job/bed.ts'
import type { Known } from '../estimate/reading/known.ts'
import { MOST_BEDS_OF_STAFF, readTold, type ToldReading } from '../estimate/reading/read-beds.ts'
import { layerNamed } from '../estimate/table/layer.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import type { BedUnderstood } from '../estimate/understood/format.ts'
import { jobStored, type Requested, type StoredBeds } from '../estimate/understood/stored.ts'

/** Beds as they were told and, where they were measured before, as they were then. */
type Before = StoredBeds & Partial<Pick<Requested, 'measured' | 'measured_understood'>>

/** Reads beds as measured. Whatever stands as it was typed before, by whomever, means what was understood then. */
export function readMeasured(measured: Told, before: Before, table: RateTable): ToldReading {
  const earlier = [
    ...(before.measured
      ? pairsOf({ told: before.measured, understood: before.measured_understood ?? null }, table)
      : []),
    ...pairsOf(before, table).map(({ typed, bed }, toldBed) => ({ typed: { ...typed, toldBed }, bed })),
  ]
  const known = (index: number) => {
    const now = measured.beds[index]!
    return knownOf(
      now,
      earlier.filter(({ typed }) => (typed.toldBed ?? null) === (now.toldBed ?? null)),
    )
  }
  return readTold(measured, table, { most: MOST_BEDS_OF_STAFF, known })
}

interface Pair {
  typed: BedTold
  bed: Bed | null
}

function pairsOf({ told, understood }: StoredBeds, table: RateTable): Pair[] {
  // What a table no longer has takes nothing else of a bed away.
  const beds = understood?.beds.map(bed => withWhatThereIs(bed, table))
  const stored = jobStored(
    { told, understood: understood && { ...understood, beds: beds!, extras: [] } },
    table,
  )
  const read = stored.ok ? stored.job.beds : stored.readable
  return told.beds.map((typed, index) => ({ typed, bed: read[index] ?? null }))
}

function withWhatThereIs(bed: BedUnderstood, table: RateTable): BedUnderstood {
  const { layers, ...rest } = bed
  const isSold = table.finishes.some(({ slug }) => slug === bed.finish)
  const areNamed = layers?.every(layer => layerNamed('extra' in layer ? layer.extra : layer.finish, table))
  return {
    ...rest,
    finish: isSold ? bed.finish : (table.finishes[0]?.slug ?? bed.finish),
    extras: [],
    ...(layers && areNamed && { layers }),
  }
}

// The first that was typed in the same way counts.
function knownOf(now: BedTold, earlier: Pair[]): Known {
  const found = (isSame: (typed: BedTold) => boolean) =>
    earlier.find(({ typed, bed }) => bed !== null && isSame(typed))?.bed
  const same = (name: 'lying' | 'depth' | 'cutOuts' | 'noEdge' | 'carry') =>
    found(typed => (typed[name] ?? '') === (now[name] ?? ''))
  const outline = found(typed => isMeasuredAlike(now, typed))
  const depth = same('depth')
  const beneath = found(typed => typed.finish === now.finish && isDeepStrictEqual(typed.layers, now.layers))
  return {
    ...(outline && { outline }),
    lying: same('lying')?.lying,
    depth: depth && (depth.usual ? null : depth.depth),
    cutOuts: same('cutOuts')?.cutOuts,
    noEdge: same('noEdge')?.noEdge,
    carry: same('carry')?.carry,
    layers: beneath?.layers,
  }
}

/** Whether a measured bed has the sizes of the told one that it is, told in the same way. */
export function isAsTold(bed: BedTold, told: Told): boolean {
  const before = toldBedOf(bed, told)
  return before !== undefined && isMeasuredAlike(bed, before)
}

function isMeasuredAlike(now: BedTold, before: BedTold): boolean {
  return before.shape === now.shape && same(before.sizes, now.sizes) && before.measuredBy === now.measuredBy
}

export function toldBedOf({ toldBed }: Pick<BedTold, 'toldBed'>, told: Told): BedTold | undefined {
  return typeof toldBed === 'number' ? told.beds[toldBed] : undefined
}

function same(one: Record<string, string>, other: Record<string, string>): boolean {
  return Object.keys(one).every(name => one[name] === other[name])
}
