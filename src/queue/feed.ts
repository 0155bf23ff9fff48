import { type Kysely, sql } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import { findBookedJobs } from '../days/queries.ts'
import type { Role } from '../db/schema/accounts.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { worksInOffice } from '../http/roles.ts'
import { dayOf } from '../lib/dates.ts'
import { hashSecret, linkToken, newNonce } from '../lib/tokens.ts'
import { type CalendarEntry, publishedEntries } from '../outbox/calendar.ts'

const SHOWN = { before: { days: 30 }, after: { days: 400 } }
const PURPOSE = 'calendar feed'

/** Somebody whose calendar it is. */
interface Subscriber {
  id: number
  role: Role
}

/** The path of the calendar that somebody of the staff subscribes to; undefined while it is turned off. */
export async function findFeedPath(deps: Deps, accountId: number): Promise<string | undefined> {
  const row = await deps.db
    .selectFrom('calendar_feed')
    .select('nonce')
    .where('account_id', '=', accountId)
    .executeTakeFirst()
  return row && `/calendar/${linkToken(deps.secretKey, PURPOSE, row.nonce)}`
}

/** Makes the address of somebody's calendar; one of before opens nothing any more. */
export async function makeFeed(deps: Deps, accountId: number): Promise<void> {
  const nonce = newNonce()
  const token_hash = hashSecret(linkToken(deps.secretKey, PURPOSE, nonce))
  const row = { nonce, token_hash, made_at: deps.now().toString() }
  await deps.db
    .insertInto('calendar_feed')
    .values({ account_id: accountId, ...row })
    .onConflict(conflict => conflict.column('account_id').doUpdateSet(row))
    .execute()
}

/** Turns somebody's calendar off; one that is off stays so. */
export async function endFeed({ db }: Pick<Deps, 'db'>, accountId: number): Promise<void> {
  await db.deleteFrom('calendar_feed').where('account_id', '=', accountId).execute()
}

/** Who of the staff subscribes to a calendar. */
export async function findFeeds({ db }: Pick<Deps, 'db'>): Promise<{ id: number; name: string }[]> {
  return db
    .selectFrom('calendar_feed')
    .innerJoin('account', 'account.id', 'calendar_feed.account_id')
    .select(['account.id', 'account.name'])
    .where('account.ended_at', 'is', null)
    .orderBy('account.id')
    .execute()
}

/** Whose calendar a token opens; undefined of an unknown one, one turned off, and of who has left. */
export async function findSubscriber(db: Kysely<Database>, token: string): Promise<Subscriber | undefined> {
  return db
    .selectFrom('calendar_feed')
    .innerJoin('account', 'account.id', 'calendar_feed.account_id')
    .select(['account.id', 'account.role'])
    .where('token_hash', '=', hashSecret(token))
    .where('account.ended_at', 'is', null)
    .executeTakeFirst()
}

/** Somebody's calendar as iCalendar: the booked work, and for the owner the visits. It holds no prices. */
export async function writeFeed(deps: Deps, { role }: Subscriber): Promise<string> {
  const business = await requireBusiness(deps.db)
  const today = Temporal.PlainDate.from(dayOf(deps.now(), business.time_zone))
  const from = today.subtract(SHOWN.before).toString()
  const until = today.add(SHOWN.after).toString()
  const host = new URL(deps.config.publicUrl).hostname
  const booked = await findBookedJobs(deps.db, from, until, deps.now())
  const work = booked.filter(({ held_until, say_by }) => held_until === null && say_by === null)
  const entries: CalendarEntry[] = work.map(({ day, number, name, street, postcode, is_erased }) => ({
    uid: `work-${number}-${day}@${host}`,
    sequence: 0,
    when: { day, lastDay: day },
    isCanceled: false,
    summary: `${name}, ${street}`,
    location: [street, postcode].filter(Boolean).join(', '),
    link: `${deps.config.publicUrl}${worksInOffice({ role }) && !is_erased ? `/queue/${number}` : `/days?from=${day}`}`,
  }))
  if (worksInOffice({ role })) entries.push(...(await visitEntries(deps, from, host)))
  return publishedEntries(entries, deps.now(), business.name)
}

async function visitEntries({ db, config }: Deps, from: string, host: string): Promise<CalendarEntry[]> {
  const visits = await db
    .selectFrom('visit')
    .innerJoin('quote_request', 'quote_request.id', 'visit.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .select(['visit.id', 'visit.starts_at', 'visit.minutes', 'quote_request.number'])
    .select(['customer.name', 'place.street', 'place.postcode'])
    .select(sql<boolean>`quote_request.erased_at is not null`.as('is_erased'))
    .where('visit.called_off_at', 'is', null)
    .where('visit.starts_at', '>=', `${from}T00:00:00Z`)
    .orderBy('visit.starts_at')
    .execute()
  return visits.map(({ id, starts_at, minutes, number, name, street, postcode, is_erased }) => ({
    uid: `visit-${number}-${id}@${host}`,
    sequence: 0,
    when: { startsAt: Temporal.Instant.from(starts_at), minutes },
    isCanceled: false,
    summary: `Measure: ${name}, ${street}`,
    location: [street, postcode].filter(Boolean).join(', '),
    link: `${config.publicUrl}${is_erased ? '/days' : `/queue/${number}`}`,
  }))
}
