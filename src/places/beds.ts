import { type Kysely, sql, type Transaction } from 'kysely'
import { json } from '../db/json.ts'
import type { BedTable } from '../db/schema/places.ts'
import type { Database } from '../db/schema.ts'
import type { BedTold, Told } from '../estimate/job/bed.ts'
import type { JobUnderstood } from '../estimate/understood/format.ts'
import type { StoredBeds } from '../estimate/understood/stored.ts'
import { putAtStops } from './stops.ts'

/** The beds of a request, and where they are; of its stops the ids are known. */
interface OfRequest extends StoredBeds {
  requestId: number
  placeId: number
}

/**
 * Keeps the beds that a request tells of as beds of its place: `known` names, by their position, those that the place
 * had already; every other one is new.
 */
export async function keepToldBeds(
  trx: Transaction<Database>,
  { requestId, placeId, told, understood }: OfRequest,
  source: BedTable['source'],
  at: Temporal.Instant,
  known: readonly (number | null)[] = [],
): Promise<void> {
  const added = told.beds.flatMap((bed, index) =>
    known[index] ? [] : [{ index, told: bed, understood: bedAlone(understood, index) }],
  )
  const ids = await insertBeds(trx, placeId, source, added, at)
  const idOf = new Map(added.map(({ index }, nth) => [index, ids[nth]!]))
  const all = told.beds.map((_bed, index) => known[index] ?? idOf.get(index)!)
  const links = all.map((bedId, index) => ({
    quote_request_id: requestId,
    bed_id: bedId,
    told_position: index,
    measured_position: null,
  }))
  if (links.length > 0) await trx.insertInto('request_bed').values(links).execute()
  await putAtStops(trx, told, all)
}

/**
 * Keeps what was measured for a request in the beds that it tells of, and those found on site as new ones; measured
 * again, a bed stays the one it was. One that was left out on site and that no other request tells of is gone.
 */
export async function keepMeasuredBeds(
  trx: Transaction<Database>,
  { requestId, placeId, told: measured, understood }: OfRequest,
  at: Temporal.Instant,
): Promise<void> {
  const before = await trx
    .selectFrom('request_bed')
    .innerJoin('bed', 'bed.id', 'request_bed.bed_id')
    .select(['bed_id', 'told_position', 'stop_id'])
    .where('quote_request_id', '=', requestId)
    .orderBy('measured_position')
    .orderBy('bed_id')
    .execute()
  const isTold = new Map(before.map(link => [link.told_position, link.bed_id]))
  const found = before.filter(link => link.told_position === null)
  // Those found at a stop stay at it, wherever that stands by now.
  const stopOf = (bed: BedTold) => (bed.stop === undefined ? null : (measured.stops?.[bed.stop]?.id ?? null))
  const ids = measured.beds.map(
    bed => takeFrom(isTold, bed.toldBed ?? null) ?? takeFound(found, stopOf(bed)) ?? null,
  )
  for (const [index, id] of ids.entries()) ids[index] = id ?? found.shift()?.bed_id ?? null
  const added = measured.beds.flatMap((bed, index) =>
    ids[index] ? [] : [{ index, told: bed, understood: null }],
  )
  const madeIds = await insertBeds(trx, placeId, 'visit', added, at)
  for (const [nth, { index }] of added.entries()) ids[index] = madeIds[nth]!
  await updateMeasured(trx, { told: measured, understood }, ids as number[], at)
  await linkMeasured(trx, requestId, ids as number[])
  await putAtStops(trx, measured, ids as number[])
  await markGone(trx, requestId, at)
}

/** A bed that a request's blob holds by position, alone: as it is recalled. */
export function bedAlone(understood: JobUnderstood | null, index: number): JobUnderstood | null {
  const bed = understood?.beds[index]
  return understood && bed ? { format: understood.format, beds: [bed], extras: [], postcode: '' } : null
}

/** The beds of a request by the place that they have among those that its price is worked out from. */
export async function findBedIds(
  db: Kysely<Database>,
  requestId: number,
  by: 'told_position' | 'measured_position',
): Promise<(number | null)[]> {
  const rows = await db
    .selectFrom('request_bed')
    .select(['bed_id', by])
    .where('quote_request_id', '=', requestId)
    .where(by, 'is not', null)
    .orderBy(by)
    .execute()
  const ids: (number | null)[] = []
  for (const row of rows) ids[row[by]!] = row.bed_id
  return Array.from(ids, id => id ?? null)
}

/**
 * Puts the beds of a request in another order: the nth is the one that stood at `order[n]`. Gives their ids in the new one.
 */
export async function moveBeds(
  trx: Transaction<Database>,
  requestId: number,
  by: 'told_position' | 'measured_position',
  order: readonly number[],
): Promise<number[]> {
  const before = await findBedIds(trx, requestId, by)
  const ids = order.map(index => before[index]!)
  // A position stands once for each request, so all are taken away first.
  await trx
    .updateTable('request_bed')
    .set({ [by]: null })
    .where('quote_request_id', '=', requestId)
    .execute()
  const positions = ids.map((_id, index) => index)
  await sql`
    update request_bed set ${sql.ref(by)} = one.position
    from unnest(${ids}::bigint[], ${positions}::integer[]) as one(id, position)
    where quote_request_id = ${requestId} and bed_id = one.id`.execute(trx)
  return ids
}

// Each told bed is one of those measured at most.
function takeFrom(among: Map<number | null, number>, position: number | null): number | undefined {
  if (position === null) return undefined
  const id = among.get(position)
  among.delete(position)
  return id
}

function takeFound(
  found: { bed_id: number; stop_id: number | null }[],
  stop: number | null,
): number | undefined {
  const at = found.findIndex(({ stop_id }) => stop_id === stop)
  return at < 0 ? undefined : found.splice(at, 1)[0]!.bed_id
}

interface NewBed {
  told: Told['beds'][number]
  understood: JobUnderstood | null
}

async function insertBeds(
  trx: Transaction<Database>,
  placeId: number,
  source: BedTable['source'],
  beds: NewBed[],
  at: Temporal.Instant,
): Promise<number[]> {
  if (beds.length === 0) return []
  const rows = beds.map(({ told, understood }) => ({
    place_id: placeId,
    source,
    told: json(told),
    understood: understood && json(understood),
    measured: null,
    measured_understood: null,
    measured_at: null,
    made_at: at.toString(),
  }))
  const made = await trx.insertInto('bed').values(rows).returning('id').execute()
  return made.map(({ id }) => id).sort((a, b) => a - b)
}

async function updateMeasured(
  trx: Transaction<Database>,
  { told, understood }: StoredBeds,
  ids: number[],
  at: Temporal.Instant,
): Promise<void> {
  const rows = ids.map((id, index) => ({
    id,
    bed: told.beds[index],
    understood: bedAlone(understood, index),
  }))
  await sql`
    update bed set measured = one.bed, measured_understood = nullif(one.understood, 'null'), measured_at = ${at.toString()},
      gone_at = null
    from jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) as one(id bigint, bed jsonb, understood jsonb)
    where bed.id = one.id`.execute(trx)
}

async function linkMeasured(trx: Transaction<Database>, requestId: number, ids: number[]): Promise<void> {
  await trx
    .updateTable('request_bed')
    .set({ measured_position: null })
    .where('quote_request_id', '=', requestId)
    .execute()
  const positions = ids.map((_id, index) => index)
  await sql`
    insert into request_bed (quote_request_id, bed_id, measured_position)
    select ${requestId}, one.id, one.position from unnest(${ids}::bigint[], ${positions}::integer[]) as one(id, position)
    on conflict (quote_request_id, bed_id) do update set measured_position = excluded.measured_position`.execute(
    trx,
  )
}

async function markGone(trx: Transaction<Database>, requestId: number, at: Temporal.Instant): Promise<void> {
  await sql`
    update bed set gone_at = ${at.toString()} where gone_at is null and id in (
      select bed_id from request_bed where quote_request_id = ${requestId} and measured_position is null)
    and not exists (select 1 from request_bed
      where bed_id = bed.id and quote_request_id <> ${requestId})`.execute(trx)
}
