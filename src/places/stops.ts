import { sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { StopTold, Told } from '../estimate/job/bed.ts'
import { folded } from '../estimate/job/stops.ts'

/**
 * Keeps the stops that are told of as stops of a place, and gives the same with their ids: one with an id is that one, one
 * of a name that the place has already is that, every other one is new. What is told without stops stays as it is.
 */
export async function keepStops(
  trx: Transaction<Database>,
  placeId: number,
  told: Told,
  at: Temporal.Instant,
): Promise<Told> {
  if (!told.stops?.length) return told
  const had = await trx.selectFrom('stop').select(['id', 'name']).where('place_id', '=', placeId).execute()
  const used = new Set(told.stops.flatMap(({ id }) => id ?? []))
  const byName = new Map(had.flatMap(({ id, name }) => (used.has(id) ? [] : [[folded(name), id] as const])))
  const known = told.stops.map(stop => ({ ...stop, id: stop.id ?? byName.get(folded(stop.name)) }))
  const ids = await insertStops(trx, placeId, known, at)
  const stops = known.map(stop => ({ ...stop, id: stop.id ?? ids.shift()! }))
  await updateStops(trx, stops)
  return { ...told, stops }
}

/** Puts beds at the stops where they are told to be, each at none where there are no stops; `ids` are of the beds in order. */
export async function putAtStops(
  trx: Transaction<Database>,
  { beds, stops = [] }: Told,
  ids: readonly number[],
): Promise<void> {
  if (stops.length === 0) return
  const rows = beds.map(({ stop }, index) => ({
    id: ids[index],
    stop: stop === undefined ? null : (stops[stop]?.id ?? null),
  }))
  await sql`
    update bed set stop_id = one.stop from jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) as one(id bigint, stop bigint)
    where bed.id = one.id`.execute(trx)
}

async function insertStops(
  trx: Transaction<Database>,
  placeId: number,
  stops: StopTold[],
  at: Temporal.Instant,
): Promise<number[]> {
  const rows = stops.flatMap(({ id, name, note, spot }, position) =>
    id === undefined ? [{ place_id: placeId, position, name, note, spot, made_at: at.toString() }] : [],
  )
  if (rows.length === 0) return []
  const made = await trx.insertInto('stop').values(rows).returning('id').execute()
  return made.map(({ id }) => id).sort((a, b) => a - b)
}

async function updateStops(trx: Transaction<Database>, stops: StopTold[]): Promise<void> {
  const rows = stops.map(({ id, name, note, spot }, position) => ({ id, name, note, spot, position }))
  await sql`
    update stop set name = one.name, note = one.note, spot = one.spot, position = one.position
    from jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) as one(id bigint, name text, note text, spot text, position integer)
    where stop.id = one.id`.execute(trx)
}
