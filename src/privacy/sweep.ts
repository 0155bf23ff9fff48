import { type Kysely, sql, type Transaction } from 'kysely'
import { noteAccess } from '../account/access-log.ts'
import { findBusiness } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { forgetReplaced } from '../papers/queries.ts'
import { sweepPhotos } from '../requests/photos/sweep.ts'
import { blankPapers, letGoOfFirms } from './blank.ts'
import { eraseRequests } from './erase.ts'
import { findStanding } from './may-erase.ts'

/** So many are done in one transaction, and no more than so many times in one night. */
const AT_A_TIME = 20
const MOST_TIMES = 500

/** How many of each kind went. */
export type Swept = Record<'photos' | 'requests' | 'papers' | 'messages' | 'guesses' | 'files', number>

/** Deletes what is past its time, by the periods that the owner has set. Done again, it finds nothing. */
export async function sweepKept({ db, now: clock }: Pick<Deps, 'db' | 'now'>): Promise<Swept> {
  const now = clock()
  const photos = await sweepPhotos(db, now)
  const business = await findBusiness(db)
  if (!business) return { photos, requests: 0, papers: 0, messages: 0, guesses: 0, files: 0 }
  const { keeping, billing, time_zone } = business
  const before = (time: Temporal.DurationLike) =>
    sql<string>`${now.toZonedDateTimeISO(time_zone).subtract(time).toInstant().toString()}::timestamptz`
  const oldMessages = before({ months: keeping.messagesMonths })
  const counted = async (statement: ReturnType<typeof sql>) =>
    Number((await statement.execute(db)).numAffectedRows ?? 0)
  return {
    photos,
    requests: await inBatches(db, trx => eraseOld(trx, before({ months: keeping.requestsMonths }), now)),
    papers: await inBatches(db, trx => erasePapers(trx, before({ years: billing.keepYears }), now)),
    messages: await counted(sql`
      delete from outbox as old where made_at < ${oldMessages} and digest_id is null
        and not exists (select 1 from outbox as told where told.digest_id = old.id)
        or digest_id in (select id from outbox where made_at < ${oldMessages})`),
    guesses: await counted(
      sql`delete from sign_in_failure where last_at < ${before({ days: keeping.guessesDays })}`,
    ),
    files: await counted(
      sql`delete from moving_in where file is not null and made_at < ${before({ days: keeping.filesDays })}`,
    ),
  }
}

async function inBatches(
  db: Kysely<Database>,
  act: (trx: Transaction<Database>) => Promise<number>,
): Promise<number> {
  let all = 0
  for (let times = 0; times < MOST_TIMES; times += 1) {
    const done = await db.transaction().execute(act)
    all += done
    if (done < AT_A_TIME) break
  }
  return all
}

/** Erases requests that came to nothing, or were junk, and are as old; who asked, where nothing else is known of them. */
async function eraseOld(
  trx: Transaction<Database>,
  before: ReturnType<typeof sql<string>>,
  now: Temporal.Instant,
): Promise<number> {
  const { rows } = await sql<{ id: number }>`
    select id from quote_request where erased_at is null and not holds_money(id)
      and ((stage in ('called off', 'not taken', 'can''t do', 'lapsed') and stage_at < ${before})
        or (stage in ('new', 'visit set', 'measured', 'quoted') and junk_at < ${before}))
    order by id limit ${AT_A_TIME} for update skip locked`.execute(trx)
  if (rows.length === 0) return 0
  const ids = rows.map(({ id }) => id)
  const standing = await findStanding(trx, ids)
  const { rows: strangers } = await sql<{ id: number }>`
    select id from customer where head_id in (select head_id from customer
        join quote_request on quote_request.customer_id = customer.id where quote_request.id = any(${ids}::bigint[]))
      and not exists (select 1 from customer as one where one.head_id = customer.head_id and one.moved_in_id is not null)
    order by id`.execute(trx)
  await eraseRequests(
    trx,
    standing,
    strangers.map(({ id }) => id),
    { kind: 'clock' },
    now,
  )
  await noteAccess(trx, { account_id: null, verb: 'erased', customer_id: null }, standing, now)
  return rows.length
}

/** Blanks bills, certificates and hours whose years are over. */
async function erasePapers(
  trx: Transaction<Database>,
  before: ReturnType<typeof sql<string>>,
  now: Temporal.Instant,
): Promise<number> {
  const { rows } = await sql<{ id: number; number: string }>`
    select id, number from quote_request where papers_erased_at is null and stage_at < ${before}
      and stage in ('paid', 'called off', 'not taken', 'can''t do', 'lapsed')
      and papers_kept_until(id) < (${now.toString()}::timestamptz at time zone (select time_zone from business))::date
    order by id limit ${AT_A_TIME} for update skip locked`.execute(trx)
  if (rows.length === 0) return 0
  await blankPapers(
    trx,
    rows.map(({ id }) => id),
    now,
  )
  await letGoOfFirms(trx)
  await forgetReplaced(trx)
  await noteAccess(trx, { account_id: null, verb: 'papers erased', customer_id: null }, rows, now)
  return rows.length
}
