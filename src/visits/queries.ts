import { type Kysely, sql, type Transaction } from 'kysely'
import { json } from '../db/json.ts'
import type { Database } from '../db/schema.ts'
import type { Told } from '../estimate/job/bed.ts'
import type { JobUnderstood } from '../estimate/understood/format.ts'

/** The visit of a request that is neither done nor called off. */
export async function findVisitAhead(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('visit')
    .select(['id', 'starts_at', 'minutes', 'made_at'])
    .where('quote_request_id', '=', quoteRequestId)
    .where('done_at', 'is', null)
    .where('called_off_at', 'is', null)
    .executeTakeFirst()
}

/** When the beds of a request were measured last. */
export async function findVisitDone(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('visit')
    .select(['starts_at', 'done_at'])
    .where('quote_request_id', '=', quoteRequestId)
    .where('done_at', 'is not', null)
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst()
}

export async function insertVisit(
  trx: Transaction<Database>,
  quoteRequestId: number,
  { startsAt, minutes }: { startsAt: Temporal.Instant; minutes: number },
  at: Temporal.Instant,
): Promise<void> {
  await trx
    .insertInto('visit')
    .values({
      quote_request_id: quoteRequestId,
      starts_at: startsAt.toString(),
      minutes,
      made_at: at.toString(),
      done_at: null,
      called_off_at: null,
    })
    .execute()
}

/** Ends the visit ahead of a request, as `done_at` or `called_off_at`; none ahead is no fault. */
export async function endVisitAhead(
  trx: Transaction<Database>,
  quoteRequestId: number,
  as: 'done_at' | 'called_off_at',
  at: Temporal.Instant,
): Promise<void> {
  await trx
    .updateTable('visit')
    .set({ [as]: at.toString() })
    .where('quote_request_id', '=', quoteRequestId)
    .where('done_at', 'is', null)
    .where('called_off_at', 'is', null)
    .execute()
}

export async function updateVisitLeftOut(
  trx: Transaction<Database>,
  quoteRequestId: number,
  leftOut: boolean,
): Promise<void> {
  await trx
    .updateTable('quote_request')
    .set({ visit_left_out: leftOut })
    .where('id', '=', quoteRequestId)
    .execute()
}

export async function updateMeasured(
  trx: Transaction<Database>,
  quoteRequestId: number,
  measured: Told,
  understood: JobUnderstood,
): Promise<void> {
  await trx
    .updateTable('quote_request')
    .set({ measured: json(measured), measured_understood: json(understood), agreed: null })
    .where('id', '=', quoteRequestId)
    .execute()
}

/** What was told, what was measured before, and whether the visit was left out. */
export async function requireVisited(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('quote_request')
    .select(['told', 'understood', 'measured', 'visit_left_out', 'place_id'])
    .where('id', '=', quoteRequestId)
    .executeTakeFirstOrThrow()
}

/** The beds of a request and their place, as its stops are sorted by them. */
export async function requireStops(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('quote_request')
    .select(['told', 'understood', 'measured', 'measured_understood', 'place_id'])
    .where('id', '=', quoteRequestId)
    .executeTakeFirstOrThrow()
}

/** The visits that stand, or are done, within some days: who, where, and who of the staff goes. In the order of time. */
export async function findVisitsBetween(db: Kysely<Database>, from: Temporal.Instant, to: Temporal.Instant) {
  return db
    .selectFrom('visit')
    .innerJoin('quote_request', 'quote_request.id', 'visit.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .leftJoin('account', 'account.id', 'quote_request.given_to')
    .select(['visit.starts_at', 'visit.minutes', 'quote_request.number', 'customer.name'])
    .select(['place.street', 'place.postcode', 'place.gate', 'place.dog', 'account.name as goes'])
    .select(sql<boolean>`quote_request.erased_at is not null`.as('is_erased'))
    .where('visit.called_off_at', 'is', null)
    .where('visit.starts_at', '>=', from.toString())
    .where('visit.starts_at', '<', to.toString())
    .orderBy('visit.starts_at')
    .execute()
}
