import { randomUUID } from 'node:crypto'
import { type Kysely, sql } from 'kysely'
import type { Database } from '../../src/db/schema.ts'
import type { TestApp } from '../helpers/app.ts'
import type { Sent } from './two-services.ts'

/** What there is of everybody with one mail address. */
export interface Picture {
  stages: string[]
  /** As maybe junk, which a process does that got many; those are kept as well. */
  held: number
  accepted: number
  booked: number
  closings: number
  /** Kind, total, and what the lines come to. */
  bills: string[]
  payments: string[]
  /** What was kept of a deposit, and what went back. */
  settled: string[]
  /** Visits that are set, by when. */
  visits: string[]
  history: string[]
  outbox: string[]
  /** What else there is, as the race itself tells it. */
  besides: string[]
}

/** Forms that get in each other's way, each of which is sent to every service at once, in a long run twice. */
export interface Race {
  name: string
  /** Makes what they are about, of somebody with this mail address, and gives them. */
  forms(app: TestApp, cookie: string, email: string): Promise<Sent[]>
  /** Whether they say what can't both be: only one of them is told that it is done. */
  onlyOne?: boolean
  /** Whether a link that one of them uses may lead nowhere any more, or to signing in. */
  ends?: boolean
  /** Whether what is done is shown at once, or leads to signing in. */
  shows?: boolean
  /** What else there is of it, after. */
  besides?(app: TestApp, email: string): Promise<string[]>
  /** What may have come of it, as the rows that there are more of. */
  outcomes: Outcome[]
}

export type Outcome = { stages: string[] } & Partial<Omit<Picture, 'stages'>>

/** As whoever makes it knows it: a number of its own, and no phone that others have too. */
export const mine = (email: string) => ({
  email,
  phone: '',
  street: `${email} Lane`,
  submissionKey: randomUUID(),
})

/** As provedNow, by the clock of the other process too, which goes on in a long run. */
export async function provedAhead({ db, deps }: TestApp): Promise<void> {
  const ahead = deps.now().add({ hours: 12 }).toString()
  await db.updateTable('session').set({ proved_at: ahead }).execute()
}

/** The hidden fields of a page of the staff, as a browser sends them back. */
export async function shownOn(app: TestApp, cookie: string, path: string): Promise<Record<string, string>> {
  const page = await app.server.inject({ url: path, headers: { cookie } })
  const hidden = page.body.matchAll(/<input type="hidden" name="([\w.]+)" value="([^"]*)">/g)
  return Object.fromEntries([...hidden].map(([, name, value]) => [name!, value!]))
}

/** What the database holds of whoever has this mail address; every list in order. */
export async function pictureOf(db: Kysely<Database>, email: string): Promise<Omit<Picture, 'besides'>> {
  const { rows } = await sql<Omit<Picture, 'besides'>>`
    with mine as (select quote_request.id, stage from quote_request join customer on customer.id = customer_id
      where email = ${email})
    select
      (select coalesce(jsonb_agg(stage order by id), '[]') from mine) as stages,
      (select count(*)::int from maybe_junk where sending->>'email' = ${email}) as held,
      (select count(*)::int from acceptance join quote on quote.id = quote_id
        where quote_request_id in (select id from mine)) as accepted,
      (select count(*)::int from booking where called_off_at is null and quote_request_id in (select id from mine)) as booked,
      (select count(*)::int from job_closing where quote_request_id in (select id from mine)) as closings,
      (select coalesce(jsonb_agg(concat_ws(' ', kind, total,
        (select sum(amount) from bill_line where bill_id = bill.id)) order by id), '[]') from bill
        where quote_request_id in (select id from mine)) as bills,
      (select coalesce(jsonb_agg(concat_ws(' ', kind, amount) order by id), '[]') from payment
        where quote_request_id in (select id from mine)) as payments,
      (select coalesce(jsonb_agg(concat_ws(' ', 'kept', kept, 'back', back) order by quote_request_id), '[]')
        from deposit_settled where quote_request_id in (select id from mine)) as settled,
      (select coalesce(jsonb_agg(to_char(starts_at at time zone 'UTC', 'YYYY-MM-DD HH24:MI') order by starts_at), '[]')
        from visit where done_at is null and called_off_at is null
        and quote_request_id in (select id from mine)) as visits,
      (select coalesce(jsonb_agg(verb order by id), '[]') from history
        where quote_request_id in (select id from mine)) as history,
      (select coalesce(jsonb_agg(kind order by kind), '[]') from outbox
        where quote_request_id in (select id from mine)) as outbox`.execute(db)
  return rows[0]!
}
