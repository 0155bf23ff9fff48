import { type Kysely, sql, type Transaction } from 'kysely'
import { noteAccess } from '../account/access-log.ts'
import type { Database } from '../db/schema.ts'
import { eraseRequests } from './erase.ts'
import { type NotedErasing, readErased } from './erased-file.ts'
import { findStanding, heldUp } from './may-erase.ts'

/** Ids of what is in the store although it was erased later than the store was so, as after restoring a backup. */
interface ToErase {
  customers: number[]
  requests: number[]
}

/** What became of them: how many were erased, and who can't be while work is ahead or money is open. */
export interface ErasedAgain {
  erased: number
  held: NotedErasing[]
}

/**
 * Erases again, in a store that was restored from before, whoever the folder says was erased since. What the owner decided
 * by hand isn't asked again; what stands in the way of erasing stands in the way here too. Done again, it finds nothing.
 */
export async function eraseAgain(
  db: Kysely<Database>,
  dataDir: string,
  now: Temporal.Instant,
): Promise<ErasedAgain> {
  const outcome: ErasedAgain = { erased: 0, held: [] }
  for (const noted of await readErased(db, dataDir)) {
    const done = await db.transaction().execute(trx => eraseNoted(trx, noted, now))
    if (done === 'held') outcome.held.push(noted)
    if (done === 'erased') outcome.erased += 1
  }
  return outcome
}

/** Who waits for that still. */
export async function findToErase(db: Kysely<Database>, dataDir: string): Promise<NotedErasing[]> {
  const waiting: NotedErasing[] = []
  for (const noted of await readErased(db, dataDir)) if (await find(db, noted)) waiting.push(noted)
  return waiting
}

async function eraseNoted(trx: Transaction<Database>, noted: NotedErasing, now: Temporal.Instant) {
  const found = await find(trx, noted)
  if (!found) return 'before'
  await sql`select id from quote_request where id = any(${found.requests}::bigint[]) order by id for update`.execute(
    trx,
  )
  const standing = (await findStanding(trx, found.requests)).filter(({ erased_at }) => erased_at === null)
  if ((await heldUp(trx, found.customers, standing)).length > 0) return 'held'
  await eraseRequests(trx, standing, found.customers, { kind: 'clock' }, now)
  const entry = { account_id: null, verb: 'erased', customer_id: noted.customer } as const
  await noteAccess(trx, entry, standing, now)
  return (await find(trx, noted)) ? 'held' : 'erased'
}

/**
 * Numbers are given again after a restore, so whoever came after the erasing is somebody else: only requests from before
 * count, and customers who have one of these or came from a file from before.
 */
async function find(db: Kysely<Database>, { at, customer, requests }: NotedErasing): Promise<ToErase | null> {
  const { rows: old } = await sql<{ id: number; customer_id: number; is_erased: boolean }>`
    select id, customer_id, erased_at is not null as is_erased from quote_request
    where number = any(${requests}::text[]) and arrived_at < ${at}::timestamptz`.execute(db)
  const { rows: customers } = await sql<{ id: number; is_erased: boolean }>`
    select id, erased_at is not null as is_erased from customer
    where head_id in (select head_id from customer
      where id = any(${old.map(row => row.customer_id)}::bigint[]) or id = ${customer} and exists
        (select from moving_in where moving_in.id = moved_in_id and made_at < ${at}::timestamptz))
      and not exists (select from quote_request as kept join customer as one on one.id = kept.customer_id
        where one.head_id = customer.head_id and kept.erased_at is null
          and kept.id <> all(${old.map(row => row.id)}::bigint[]))`.execute(db)
  const open = old.filter(row => !row.is_erased)
  if (open.length === 0 && customers.every(row => row.is_erased)) return null
  return { customers: customers.map(row => row.id), requests: open.map(row => row.id) }
}

/** The same in sentences, for whoever starts or restores; none where nobody was to be erased. */
export function tellErasedAgain({ erased, held }: ErasedAgain): string[] {
  const done =
    erased > 0
      ? [
          `Erased again, as they were after this copy was made: ${erased} ${erased === 1 ? 'person' : 'people'}.`,
        ]
      : []
  return [...done, ...held.map(tellHeld)]
}

/** Of one who can't be erased again yet. */
export function tellHeld({ at, customer, requests }: NotedErasing): string {
  const which = requests.length > 0 ? ` (${requests.join(', ')})` : ''
  return `Customer ${customer}${which} was erased on ${at.slice(0, 10)}, but can’t be erased here yet: work is ahead or money is open.`
}
