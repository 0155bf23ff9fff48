import type { Transaction } from 'kysely'
import { type Business, requireBusiness } from '../business/queries.ts'
import type { PackOf } from '../db/schema/goods.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { seesCosts } from '../http/roles.ts'
import type { Account } from '../http/signed-in.ts'
import { dayOf } from '../lib/dates.ts'
import { Decimal } from '../lib/decimal.ts'
import { moveOnHand } from '../on-hand/move.ts'
import { packOf } from '../on-hand/pack-words.ts'
import { findOnHandById } from '../on-hand/queries.ts'
import { recordHistory } from '../requests/history.ts'
import { contentsIn, type DayLoad, findLoads } from './find-load.ts'
import { orderCame, orderDidNotCome } from './orders-of-day.ts'
import { findGotByKey, insertGot, lockDay, lockGot } from './queries.ts'
import { shareOut } from './share-out.ts'
import { isOf } from './wanted.ts'

/**
 * What somebody got: so many units of a pack ('' where none is listed), bought or brought, or taken from what is on hand. `seen`
 * is the last that the page knew to be got for the day; `paid` in money, null where nobody said.
 */
export interface Getting {
  key: string
  day: string
  seen: number
  of: PackOf
  slug: string
  pack: string
  delivered: boolean
  onHandId: number | null
  units: string
  paid: string | null
  boughtAt: string
  ticket: Buffer | null
}

/**
 * Notes what was got for a day, shared out among the jobs that want it; what comes from on hand leaves it, and an order of it
 * has come, in the same transaction. The same again changes nothing.
 * @throws {Conflict} when no job of the day takes it, somebody else noted something meanwhile, or less is on hand
 */
export async function getForDay(deps: Deps, accountId: number, getting: Getting): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const gotId = await getWithin(trx, at, accountId, getting)
    if (gotId !== null && getting.onHandId === null)
      await orderCame(trx, getting, gotId, { at, by: accountId })
  })
}

/** The same within the transaction of an order that came. Gives the id of what was got; null where it was noted before. */
export async function getWithin(
  trx: Transaction<Database>,
  at: Temporal.Instant,
  accountId: number,
  getting: Getting,
): Promise<number | null> {
  await lockDay(trx, getting.day)
  if (await findGotByKey(trx, getting.key)) return null
  const business = await requireBusiness(trx)
  const { load, table } = await requireLoad(trx, at, business, getting.day)
  if (getting.seen !== lastGot(load)) throw new Conflict('loads.ticked-meanwhile')
  const asking = load.wanted.filter(one => isOf(one, getting.of, getting.slug))
  if (asking.length === 0) throw new Conflict('loads.not-wanted')
  const pack = packOf(getting, table)
  const contents = contentsIn(pack, table)
  const { shares } = shareOut(new Decimal(getting.units), contents, pack, asking)
  const { key, day, of, slug, delivered, units, paid, ticket } = getting
  const spot = getting.onHandId === null ? undefined : await findOnHandById(trx, getting.onHandId)
  if (getting.onHandId !== null && !(spot && isOf(spot, of, slug) && spot.pack === getting.pack))
    throw new Conflict('loads.not-wanted')
  if (spot) {
    const move = { of, slug, pack: spot.pack, spot: spot.spot, kind: 'loaded', units: `-${units}` } as const
    await moveOnHand(trx, [{ ...move, key: `load ${key}`, note: day }], { at, by: accountId })
  }
  const got = { key, day, of, slug, pack: getting.pack, delivered, units, paid, ticket }
  return insertGot(
    trx,
    {
      ...got,
      ...{ on_hand_id: getting.onHandId, contents: contents.toFixed(8), bought_at: getting.boughtAt },
      ...{ made_at: at.toString(), made_by: accountId },
    },
    shares.map(({ jobId, units }) => ({ jobId, units: units.toFixed(6) })),
  )
}

/** The number of what was got last for a day, 0 for nothing. */
export function lastGot({ got }: Pick<DayLoad, 'got'>): number {
  return got.at(-1)?.id ?? 0
}

/**
 * Takes back what was noted by mistake: what came from on hand goes back there, and an order is still to come. A repeat changes
 * nothing.
 * @throws {NotFound} when there is none, or it is somebody else's, which only the owner may take back
 */
export async function undoGot(deps: Deps, account: Pick<Account, 'id' | 'role'>, id: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const got = await lockGot(trx, id)
    if (!got || (!seesCosts(account) && got.made_by !== account.id)) throw new NotFound()
    if (got.undone_at !== null) return
    const spot = got.on_hand_id === null ? undefined : await findOnHandById(trx, got.on_hand_id)
    if (spot) {
      const { of, slug, pack } = got
      const move = { of, slug, pack, spot: spot.spot, kind: 'put back', units: got.units } as const
      await moveOnHand(trx, [{ ...move, key: `load ${got.key} undone` }], { at, by: account.id })
    }
    await trx
      .updateTable('load_got')
      .set({ undone_at: at.toString(), undone_by: account.id })
      .where('id', '=', id)
      .execute()
    await orderDidNotCome(trx, id, { at, by: account.id })
  })
}

/**
 * Notes that the yard has no more of something: in the history of every job of the day that still wants it, so that the office
 * asks the customer for a substitute. A repeat changes nothing.
 * @throws {Conflict} when no job of the day still wants it
 */
export async function saySoldOut(
  deps: Deps,
  accountId: number,
  day: string,
  { of, slug }: { of: PackOf; slug: string },
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    await lockDay(trx, day)
    const { load } = await requireLoad(trx, at, await requireBusiness(trx), day)
    const asking = load.wanted.filter(one => isOf(one, of, slug) && one.left.gt(0))
    if (asking.length === 0) throw new Conflict('loads.not-wanted')
    for (const { jobId, thing } of asking) {
      const told = await trx
        .insertInto('sold_out_at_yard')
        .values({ quote_request_id: jobId, of, slug, told_at: at.toString(), told_by: accountId })
        .onConflict(conflict => conflict.doNothing())
        .returning('slug')
        .executeTakeFirst()
      const doer = { kind: 'staff', accountId } as const
      if (told) await recordHistory(trx, jobId, doer, 'sold out at the yard', at, { what: thing.name.en })
    }
  })
}

/** Takes back that the yard had no more of something. */
export async function takeSoldOutBack(
  deps: Deps,
  jobIds: number[],
  { of, slug }: { of: PackOf; slug: string },
): Promise<void> {
  await deps.db
    .deleteFrom('sold_out_at_yard')
    .where('quote_request_id', 'in', [-1, ...jobIds])
    .where('of', '=', of)
    .where('slug', '=', slug)
    .execute()
}

/**
 * What one day takes.
 * @throws {Conflict} when no job begins on it
 */
async function requireLoad(db: Deps['db'], now: Temporal.Instant, business: Business, day: string) {
  const today = dayOf(now, business.time_zone)
  const { table, loads } = await findLoads(db, now, { today, first: day, last: day })
  const [load] = loads
  if (!load) throw new Conflict('loads.not-wanted')
  return { table, load }
}
