import { sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import { ofPeople, type People } from './people.ts'
import type { TableName, Via } from './tables.ts'

type Frozen = [table: TableName, via: Via, columns: string[]]

/** What names somebody in rows that are kept as they were made; the database knows what alone may stand there instead. */
const FROZEN: Frozen[] = [
  ['quote_variant', 'quote', ['job', 'understood', 'lines']],
  ['quote', 'request', ['job', 'understood', 'note', 'why', 'terms']],
  ['quote_line', 'quote', ['description', 'reason']],
  ['accepted_text', 'quote', ['text', 'digest', 'digest_before']],
  ['acceptance', 'quote', ['typed_name']],
  ['on_hand_move', 'request', ['note']],
  ['supply_order_step', 'order', ['note']],
  ['job_closing', 'request', ['note']],
  ['job_dump_fee', 'closing', ['words']],
  ['dig_ticket', 'request', ['number', 'answers']],
  ['dig_decision', 'request', ['name']],
]

const FROZEN_PAPERS: Frozen[] = [
  ['bill', 'request', ['bill_to', 'place', 'order_number', 'tax_note', 'reason', 'terms']],
  ['bill_line', 'bill', ['words']],
  ['job_hours', 'closing', ['name', 'account_id']],
]

/** Blanks all that names somebody in these requests, but for their bills, certificates and hours. They are over, and locked. */
export async function blankRequests(
  trx: Transaction<Database>,
  requests: number[],
  at: Temporal.Instant,
): Promise<void> {
  const people: People = { customers: [], places: [], requests }
  const among = sql<boolean>`quote_request_id = any(${requests}::bigint[])`
  await sql`delete from request_photo where ${among}`.execute(trx)
  await sql`delete from job_photo where ${among}`.execute(trx)
  await sql`delete from request_bed where ${among}`.execute(trx)
  await sql`update job_trouble set words = '–' where ${among}`.execute(trx)
  await sql`update history set detail = '{}' where ${among} and detail <> '{}'`.execute(trx)
  await sql`update supply_order set dropped = '' where id in (select supply_order_id from supply_order_job where ${among})`.execute(
    trx,
  )
  await sql`
    update outbox set last_fault = 'dropped: erased' where ${among} and sent_at is null
      and coalesce(last_fault not like 'dropped: %', true)`.execute(trx)
  await sql`update link set revoked_at = ${at.toString()} where ${among} and revoked_at is null`.execute(trx)
  await sql`
    update quote_request set erased_at = ${at.toString()}, note = '', preferred_times = '', content_hash = null,
      told = blank_told(told), understood = blank_understood(understood), measured = blank_told(measured),
      measured_understood = blank_understood(measured_understood), agreed = null, news_from = null, given_to = null
    where id = any(${requests}::bigint[])`.execute(trx)
  for (const frozen of FROZEN) await blankFrozen(trx, frozen, people)
}

/** The same of the bills, certificates and hours of requests, once their years are over. */
export async function blankPapers(
  trx: Transaction<Database>,
  requests: number[],
  at: Temporal.Instant,
): Promise<void> {
  const among = sql<boolean>`quote_request_id = any(${requests}::bigint[])`
  await sql`delete from job_certificate where ${among}`.execute(trx)
  await sql`delete from purchase_order where ${among}`.execute(trx)
  await sql`update quote_request set papers_erased_at = ${at.toString()} where id = any(${requests}::bigint[])`.execute(
    trx,
  )
  for (const frozen of FROZEN_PAPERS) await blankFrozen(trx, frozen, { customers: [], places: [], requests })
}

async function blankFrozen(trx: Transaction<Database>, [table, via, columns]: Frozen, people: People) {
  const set = sql.join(columns.map(column => sql.ref(column)))
  const blank = sql`jsonb_populate_record(null::${sql.table(table)}, blanked(${sql.lit(table)}, to_jsonb(was)))`
  await sql`
    update ${sql.table(table)} as was set (${set}) = (select ${set} from ${blank})
    where ${ofPeople(table, via, people)}`.execute(trx)
}

/** Blanks who these customers are and where they live, where all requests of their group are erased. */
export async function blankCustomers(
  trx: Transaction<Database>,
  customers: number[],
  at: Temporal.Instant,
): Promise<void> {
  const { rows } = await sql<{ id: number }>`
    update customer as gone set erased_at = ${at.toString()}, name = '–', phone = '', email = '', phone_key = null,
      email_key = null, email_confirmed_at = null, quiet_since = ${at.toString()}
    where id = any(${customers}::bigint[]) and erased_at is null
      and not exists (select 1 from quote_request join customer as one on one.id = quote_request.customer_id
        where one.head_id = gone.head_id and quote_request.erased_at is null)
    returning id`.execute(trx)
  const gone = sql`any(${rows.map(({ id }) => id)}::bigint[])`
  const places = sql`(select id from place where customer_id = ${gone})`
  await sql`
    update place set street = '', postcode = '', gate = '', dog = '', home = '', pile = '', street_key = null,
      postcode_key = '' where customer_id = ${gone}`.execute(trx)
  await sql`
    delete from bed where place_id in ${places} and not exists (select 1 from request_bed where bed_id = bed.id)`.execute(
    trx,
  )
  await sql`update stop set name = '–', note = '', spot = '' where place_id in ${places}`.execute(trx)
  await sql`delete from consent where customer_id = ${gone}`.execute(trx)
  await sql`
    update firm set rules = '', bill_email = '', paper_ids = '{}', needs_order = false where customer_id = ${gone}`.execute(
    trx,
  )
}

/** What is agreed with a firm goes with the last of its papers, and files with whatever pointed at them. */
export async function letGoOfFirms(trx: Transaction<Database>): Promise<void> {
  await sql`
    delete from firm using customer where customer.id = firm.customer_id and customer.erased_at is not null
      and not exists (select 1 from quote_request join customer as one on one.id = quote_request.customer_id
        where one.head_id = customer.head_id and papers_erased_at is null)`.execute(trx)
}
