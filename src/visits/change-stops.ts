import { createHash } from 'node:crypto'
import type { Transaction } from 'kysely'
import { json } from '../db/json.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import type { StopTold, Told } from '../estimate/job/bed.ts'
import { upToDate } from '../estimate/understood/format.ts'
import { bedsOf, type StoredBeds } from '../estimate/understood/stored.ts'
import { Conflict } from '../http/errors.ts'
import { moveBeds } from '../places/beds.ts'
import { keepStops, putAtStops } from '../places/stops.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { requireStops } from './queries.ts'

/** The stops of a job in another order, with other names and notes: each with the place that it had. */
export interface StopsWanted {
  /** What the form was filled from. */
  seen: string
  stops: (StopTold & { was: number })[]
}

/** Whether the stops of a request may still be named and sorted anew: a price says them as they were. */
export function mayChangeStops(stage: Stage): boolean {
  return stage === 'new' || stage === 'visit set' || stage === 'measured'
}

/** Stands for stops as they are. */
export function seenOf({ stops = [] }: Pick<Told, 'stops'>): string {
  return createHash('sha256').update(JSON.stringify(stops)).digest('hex').slice(0, 16)
}

/**
 * Names and sorts the stops of a request anew; their beds go with them, as they are. The same again changes nothing.
 * @throws {Conflict} when there is a price, or somebody else changed them meanwhile
 */
export async function saveStops(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  { seen, stops }: StopsWanted,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const { stage, number } = await lockQuoteRequest(trx, quoteRequestId)
    const request = await requireStops(trx, quoteRequestId)
    const before = bedsOf(request)
    if (isSame(before.told, stops)) return
    if (!mayChangeStops(stage)) throw new Conflict('error.stage', { number })
    if (seen !== seenOf(before.told) || !isWhole(before.told, stops)) throw new Conflict('error.again')
    const by = request.measured ? 'measured' : 'told'
    const { sorted, order } = inOrder(before, stops)
    const told = await keepStops(trx, request.place_id, sorted.told, now)
    await updateBeds(trx, quoteRequestId, by, { ...sorted, told })
    const ids = await moveBeds(trx, quoteRequestId, `${by}_position`, order)
    await putAtStops(trx, told, ids)
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'stops changed', now, {
      stops: String(stops.length),
    })
  })
}

function isSame({ stops = [] }: Told, wanted: StopsWanted['stops']): boolean {
  const same = (stop: StopTold, one: StopTold) =>
    stop.name === one.name && stop.note === one.note && stop.spot === one.spot
  return stops.length === wanted.length && wanted.every((one, at) => one.was === at && same(stops[at]!, one))
}

function isWhole({ stops = [] }: Told, wanted: StopsWanted['stops']): boolean {
  return (
    stops.length > 0 &&
    stops.length === wanted.length &&
    new Set(wanted.map(({ was }) => was)).size === stops.length
  )
}

/** The beds in the order of their stops; `order[n]` is where the nth was. */
function inOrder({ told, understood }: StoredBeds, stops: StopsWanted['stops']) {
  const order = stops.flatMap(({ was }) =>
    told.beds.flatMap((bed, index) => (bed.stop === was ? [index] : [])),
  )
  const at = new Map(stops.map(({ was }, place) => [was, place]))
  const beds = order.map(index => ({ ...told.beds[index]!, stop: at.get(told.beds[index]!.stop ?? 0)! }))
  const newer = understood && upToDate(understood)
  const sorted: StoredBeds = {
    told: { ...told, beds, stops: stops.map(({ was: _, ...stop }) => stop) },
    understood: newer && { ...newer, beds: order.map(index => newer.beds[index]!) },
  }
  return { sorted, order }
}

async function updateBeds(
  trx: Transaction<Database>,
  quoteRequestId: number,
  by: 'told' | 'measured',
  { told, understood }: StoredBeds,
): Promise<void> {
  const stored = understood && json(understood)
  await trx
    .updateTable('quote_request')
    .set(
      by === 'told'
        ? { told: json(told), understood: stored }
        : { measured: json(told), measured_understood: stored },
    )
    .where('id', '=', quoteRequestId)
    .execute()
}
