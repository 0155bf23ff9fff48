import { sql } from 'kysely'
import type { Store } from '../../src/db/open.ts'
import { bedTold, told } from '../helpers/requests.ts'

/** The names of every so many requests, of which a page of the queue shows as much at any size. */
const FIRST = ['Hazel', 'Rowan', 'Laurel', 'Linden', 'Willow', 'Sage', 'Ivy', 'Clover', 'Basil', 'Alder']
const LAST = ['Underhill', 'Ashgrove', 'Thornbury', 'Finchley', 'Larkspur', 'Teasel', 'Mapleton', 'Whitcombe']
const STREETS = [
  'Oak',
  'Elm',
  'Cedar',
  'Foxglove',
  'Bramble',
  'Yarrow',
  'Quince',
  'Sorrel',
  'Medlar',
  'Cowslip',
]

/**
 * Fills a business that is set up with so many requests by SQL: four in a hundred wait under each of five steps, some
 * are on hold, junk, or have news, and the others are over. Every request has a range, notes and mails; three have a
 * word that no other has.
 */
export async function fillQueue({ db }: Pick<Store, 'db'>, requests: number): Promise<void> {
  const beds = JSON.stringify(told(bedTold(), bedTold({ shape: 'circle', sizes: { diameter: '9 ft' } })))
  await db.transaction().execute(async trx => {
    const run = (statement: ReturnType<typeof sql>) => statement.execute(trx)
    // Row by row the triggers would take minutes; what they keep is put down in one go at the end.
    await run(sql`set local session_replication_role = replica`)
    await run(
      sql`create temporary table n on commit drop as select n from generate_series(1, ${requests}::integer) as n`,
    )
    await run(sql`
      insert into customer (id, head_id, name, phone, email) overriding system value
      select n, n, ${pick(FIRST, 'n')} || ' ' || ${pick(LAST, 'n / 10')}, '(555) ' || lpad((n / 10000)::text, 3, '0') || '-'
        || lpad((n % 10000)::text, 4, '0'), 'person' || n || '@example.com' from n`)
    await run(sql`
      insert into place (id, head_id, customer_id, street, postcode, gate, dog) overriding system value
      select n, n, n, (n % 900 + 1) || ' ' || ${pick(STREETS, 'n / 7')} || ' Street', lpad((n % 997)::text, 5, '4'), '', '' from n`)
    await run(sql`
      insert into quote_request (id, number, stage, stage_at, customer_id, place_id, submission_key, content_hash, put_in_by,
        language, preferred_times, note, told, arrived_at) overriding system value
      select n, '26-' || lpad(n::text, 6, '0'), case n % 25 when 0 then 'new' when 1 then 'visit set' when 2 then 'measured'
          when 3 then 'quoted' when 4 then 'booked' when 5 then 'lapsed' when 6 then 'called off' else 'paid' end,
        now() - n * interval '1 minute' / 100, n, n, gen_random_uuid(), '', 'homeowner', 'en', 'Weekday mornings',
        case when n in (7, 333, 777) then 'Mind the quagga' else 'Beds by the porch, number ' || n end, ${beds}::jsonb, now()
      from n`)
    await run(sql`
      insert into ballpark (quote_request_id, rate_table_id, method, low, likely, high, result, made_at)
      select n, (select min(id) from rate_table), 2, 300, 350, 400, '{}', now() from n`)
    await fillSteps(run)
    await run(sql`
      insert into history (quote_request_id, at, by_kind, account_id, verb, detail)
      select n, now(), 'staff', (select min(id) from account), 'noted', jsonb_build_object('note', 'Called about ' || n) from n`)
    await run(sql`
      insert into history (quote_request_id, at, by_kind, verb, detail)
      select n, now(), 'homeowner', 'note added', '{"note": "Please hurry"}' from n where n % 30 = 0`)
    await run(sql`
      update quote_request set news_from = history.id from history
      where quote_request_id = quote_request.id and by_kind = 'homeowner'`)
    await run(sql`update quote_request set on_hold_until = current_date + 9 where id % 250 = 50`)
    await run(sql`update quote_request set junk_at = now() where id % 250 = 75`)
    await run(sql`set local session_replication_role = origin`)
    await run(sql`alter table quote_request disable trigger keep_request_text`)
    await run(sql`update quote_request set stage = stage`)
    await run(sql`alter table quote_request enable trigger keep_request_text`)
    await run(sql`insert into request_text select n, request_text_of(n) from n`)
  })
  await sql`vacuum (analyze)`.execute(db)
}

// What the steps after measuring rest on: visits, quotes, acceptances, days.
async function fillSteps(run: (statement: ReturnType<typeof sql>) => Promise<unknown>): Promise<void> {
  await run(sql`
    insert into visit (quote_request_id, starts_at, made_at) select n, now() + n * interval '1 minute' / 10, now()
    from n where n % 25 = 1`)
  await run(sql`
    insert into quote (id, quote_request_id, revision, rate_table_id, job, terms, note, total, currency, labor_hours,
      labor_hours_worked_out, holds_until, made_by, made_at) overriding system value
    select n, n, 1, (select min(id) from rate_table), '{}', '{}', '', 350, 'USD', 3, 3, current_date + 20,
      (select min(id) from account), now() from n where n % 25 > 2`)
  await run(sql`insert into acceptance select n, 'Carol', now() from n where n % 25 = 4`)
  await run(sql`
    insert into booking (quote_request_id, quote_id, first_day, made_at)
    select n, n, current_date + n % 200, now() from n where n % 25 = 4`)
  await run(sql`
    insert into outbox (id, kind, quote_request_id, recipient, made_at, tried_from, sent_at)
    select gen_random_uuid(), 'quote-ready', n, 'homeowner', now(), now(), now() from n where n % 25 > 2`)
}

function pick(names: string[], by: string) {
  return sql`(${names}::text[])[1 + (${sql.raw(by)}) % ${names.length}::integer]`
}
