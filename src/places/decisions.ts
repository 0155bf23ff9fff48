import { type Kysely, sql, type Transaction } from 'kysely'
import type { DecisionTable } from '../db/schema/people.ts'
import type { Database } from '../db/schema.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { type Kind, requireHead } from './queries.ts'

/** Two of a kind, by the ids of any of their rows, and who decided when. */
interface Deciding {
  kind: Kind
  one: number
  other: number
  accountId: number
  at: Temporal.Instant
}

/** What was done: undefined where it stood so already. `joined` is the row that points at `to` now. */
export type Joined = { joined: number; to: number } | undefined

/**
 * Joins two groups: the head of the younger points at that of the older, and nothing else changes. A standing decision
 * that keeps the two apart ends by it. Joined already, nothing is done.
 * @throws {NotFound} when there is no such row
 * @throws {Conflict} when one of them is erased, of places when one has erased customers alone
 */
export async function joinGroups(trx: Transaction<Database>, deciding: Deciding): Promise<Joined> {
  const { kind, accountId, at } = deciding
  await oneAtATime(trx, kind)
  const heads = [await requireHead(trx, kind, deciding.one), await requireHead(trx, kind, deciding.other)]
  const [to, joined] = heads.sort((a, b) => a - b) as [number, number]
  if (to === joined) return undefined
  if (await isErased(trx, kind, heads)) throw new Conflict('people.erased')
  for (const { id } of await findApart(trx, kind, to, joined)) await markUndone(trx, kind, id, accountId, at)
  await sql`update ${sql.table(kind)} set joined_to = ${to} where id = ${joined}`.execute(trx)
  await insertDecision(trx, kind, { one_id: joined, other_id: to, verb: 'joined' }, accountId, at)
  return { joined, to }
}

async function isErased(trx: Transaction<Database>, kind: Kind, heads: number[]): Promise<boolean> {
  const customers = trx.selectFrom('customer').select('id').where('erased_at', 'is not', null)
  const row =
    kind === 'customer'
      ? await customers.where('head_id', 'in', heads).forUpdate().executeTakeFirst()
      : await customers
          .where(eb =>
            eb('id', 'in', eb.selectFrom('place').select('customer_id').where('place.head_id', 'in', heads)),
          )
          .executeTakeFirst()
  return row !== undefined
}

/**
 * Keeps two groups apart, so that neither is offered for the other again. Kept apart already, nothing is done.
 * @throws {NotFound} when there is no such row
 * @throws {Conflict} when they are joined
 */
export async function keepGroupsApart(trx: Transaction<Database>, deciding: Deciding): Promise<boolean> {
  const { kind, one, other, accountId, at } = deciding
  await oneAtATime(trx, kind)
  const heads = [await requireHead(trx, kind, one), await requireHead(trx, kind, other)] as const
  if (heads[0] === heads[1]) throw new Conflict('people.joined')
  if ((await findApart(trx, kind, ...heads)).length > 0) return false
  await insertDecision(trx, kind, { one_id: heads[0], other_id: heads[1], verb: 'kept apart' }, accountId, at)
  return true
}

/**
 * Undoes a decision; that it was made stays. What was joined stands as it did before, with all that had been joined to
 * it. Gives false where it was undone already.
 * @throws {NotFound} when there is no such decision
 */
export async function undoDecision(
  trx: Transaction<Database>,
  { kind, id, accountId, at }: { kind: Kind; id: number; accountId: number; at: Temporal.Instant },
): Promise<boolean> {
  await oneAtATime(trx, kind)
  const { one_id, verb, undone_at } = await requireDecision(trx, kind, id)
  if (undone_at) return false
  await markUndone(trx, kind, id, accountId, at)
  if (verb === 'joined')
    await sql`update ${sql.table(kind)} set joined_to = null where id = ${one_id}`.execute(trx)
  return true
}

/** @throws {NotFound} when there is no such decision */
export async function requireDecision(trx: Transaction<Database>, kind: Kind, id: number) {
  if (!Number.isSafeInteger(id)) throw new NotFound()
  const { rows } = await sql<Pick<DecisionTable, 'one_id' | 'other_id' | 'verb' | 'undone_at'>>`
    select one_id, other_id, verb, undone_at from ${decisionOf(kind)} where id = ${id}`.execute(trx)
  if (!rows[0]) throw new NotFound()
  return rows[0]
}

/** A decision as it is shown: of whom, by whom, and whether it was undone. */
export interface DecisionRow {
  id: number
  one_id: number
  other_id: number
  verb: DecisionTable['verb']
  at: string
  by: string
  undone_at: string | null
  undone_by: string | null
  /** Whom it was about, besides this group: the name or the street, and the row. */
  with_id: number
  with_words: string
}

/** Every decision about the rows of a group, newest first. */
export async function findDecisions(
  db: Kysely<Database>,
  kind: Kind,
  headId: number,
): Promise<DecisionRow[]> {
  const table = sql.table(kind)
  const mine = sql`(select id from ${table} where head_id = ${headId})`
  const words = kind === 'customer' ? sql.ref('theirs.name') : sql.ref('theirs.street')
  const { rows } = await sql<DecisionRow>`
    select decision.id, one_id, other_id, verb, at, account.name as by, undone_at, undoer.name as undone_by,
      theirs.id as with_id, ${words} as with_words
    from ${decisionOf(kind)} as decision join account on account.id = decision.account_id
      left join account as undoer on undoer.id = decision.undone_by
      join ${table} as theirs on theirs.id = case
        when one_id in ${mine} and other_id not in ${mine} then other_id else one_id end
    where one_id in ${mine} or other_id in ${mine}
    order by decision.id desc`.execute(db)
  return rows
}

async function findApart(trx: Transaction<Database>, kind: Kind, one: number, other: number) {
  const table = sql.table(kind)
  const { rows } = await sql<{ id: number }>`
    select decision.id from ${decisionOf(kind)} as decision
    join ${table} as a on a.id = one_id join ${table} as b on b.id = other_id
    where verb = 'kept apart' and undone_at is null
      and ((a.head_id = ${one} and b.head_id = ${other}) or (a.head_id = ${other} and b.head_id = ${one}))`.execute(
    trx,
  )
  return rows
}

/**
 * Lets who belongs to whom change one after another, until the transaction ends. The trigger asks for the same lock; taken
 * first, nobody who waits for it holds a row that its holder needs.
 */
export async function oneAtATime(trx: Transaction<Database>, kind: Kind): Promise<void> {
  await sql`select pg_advisory_xact_lock(hashtext(${`${kind} joined`}))`.execute(trx)
}

async function insertDecision(
  trx: Transaction<Database>,
  kind: Kind,
  { one_id, other_id, verb }: Pick<DecisionTable, 'one_id' | 'other_id' | 'verb'>,
  accountId: number,
  at: Temporal.Instant,
): Promise<void> {
  await sql`
    insert into ${decisionOf(kind)} (one_id, other_id, verb, at, account_id)
    values (${one_id}, ${other_id}, ${verb}, ${at.toString()}, ${accountId})`.execute(trx)
}

async function markUndone(
  trx: Transaction<Database>,
  kind: Kind,
  id: number,
  accountId: number,
  at: Temporal.Instant,
): Promise<void> {
  await sql`
    update ${decisionOf(kind)} set undone_at = ${at.toString()}, undone_by = ${accountId} where id = ${id}`.execute(
    trx,
  )
}

function decisionOf(kind: Kind) {
  return sql.table(`${kind}_decision`)
}
