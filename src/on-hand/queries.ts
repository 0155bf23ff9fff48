import { type Insertable, type Kysely, sql, type Transaction } from 'kysely'
import type { OnHandMoveTable, PackOf } from '../db/schema/goods.ts'
import type { Database } from '../db/schema.ts'

/** A pack as the rate table names it, and where it is: '' for the yard. */
export interface PackAt {
  of: PackOf
  slug: string
  pack: string
  spot: string
}

/** Locks what is on hand of a pack at a place, with none where it is the first. */
export async function lockOnHand(
  trx: Transaction<Database>,
  { of, slug, pack, spot }: PackAt,
): Promise<{ id: number; units: string }> {
  await trx
    .insertInto('on_hand')
    .values({ of, slug, pack, spot })
    .onConflict(conflict => conflict.doNothing())
    .execute()
  return trx
    .selectFrom('on_hand')
    .select(['id', 'units'])
    .where('of', '=', of)
    .where('slug', '=', slug)
    .where('pack', '=', pack)
    .where(sql`lower(spot)`, '=', sql`lower(${spot})`)
    .forUpdate()
    .executeTakeFirstOrThrow()
}

/** Locks what is on hand by its id, and gives how much that is. */
export async function lockOnHandById(trx: Transaction<Database>, id: number): Promise<string | undefined> {
  const row = await trx
    .selectFrom('on_hand')
    .select('units')
    .where('id', '=', id)
    .forUpdate()
    .executeTakeFirst()
  return row?.units
}

/** The move that took a key. */
export async function findMove(db: Kysely<Database>, key: string) {
  return db
    .selectFrom('on_hand_move')
    .select(['on_hand_id', 'kind', 'units'])
    .where('key', '=', key)
    .executeTakeFirst()
}

export async function insertMove(
  trx: Transaction<Database>,
  move: Insertable<OnHandMoveTable>,
): Promise<void> {
  await trx.insertInto('on_hand_move').values(move).execute()
}

/** Everything that is or was on hand, in the order of materials, packs and places. */
export async function findOnHand(db: Kysely<Database>) {
  return db
    .selectFrom('on_hand')
    .select(['id', 'of', 'slug', 'pack', 'spot', 'units'])
    .orderBy('of', 'desc')
    .orderBy('slug')
    .orderBy('pack')
    .orderBy('spot')
    .execute()
}

/** One pack at a place, and how many moves it has had. */
export async function findOnHandById(db: Kysely<Database>, id: number) {
  return db
    .selectFrom('on_hand')
    .select(['id', 'of', 'slug', 'pack', 'spot', 'units'])
    .select(eb =>
      eb
        .selectFrom('on_hand_move')
        .whereRef('on_hand_id', '=', 'on_hand.id')
        .select(eb.fn.countAll<string>().as('moves'))
        .as('moves'),
    )
    .where('id', '=', id)
    .executeTakeFirst()
}

/** What came and went of a pack, the newest first, before a move or from the last one. */
export async function findMoves(
  db: Kysely<Database>,
  onHandId: number,
  before: number | null,
  count: number,
) {
  let moves = db
    .selectFrom('on_hand_move')
    .leftJoin('account', 'account.id', 'on_hand_move.made_by')
    .leftJoin('quote_request', 'quote_request.id', 'on_hand_move.quote_request_id')
    .select(['on_hand_move.id', 'on_hand_move.kind', 'on_hand_move.units', 'on_hand_move.note'])
    .select(['on_hand_move.made_at', 'account.name as by_name', 'quote_request.number'])
    .where('on_hand_id', '=', onHandId)
  if (before !== null) moves = moves.where('on_hand_move.id', '<', before)
  return moves.orderBy('on_hand_move.id', 'desc').limit(count).execute()
}
