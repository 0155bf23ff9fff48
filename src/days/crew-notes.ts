import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { StopTold } from '../estimate/job/bed.ts'

/** What a crew has to know of a job besides its place: the customer's rules, and the stops with their beds counted. */
export interface CrewNotes {
  rules: string
  stops: (Pick<StopTold, 'name' | 'note' | 'spot'> & { beds: number })[]
}

/** The notes for the crew of booked jobs, by the numbers of their requests. */
export async function findCrewNotes(
  db: Kysely<Database>,
  numbers: readonly string[],
): Promise<Map<string, CrewNotes>> {
  if (numbers.length === 0) return new Map()
  const { rows } = await sql<CrewNotes & { number: string }>`
    select quote_request.number,
      coalesce((select firm.rules from firm join customer as one on one.id = firm.customer_id
        where one.head_id = customer.head_id order by firm.saved_at desc limit 1), '') as rules,
      coalesce((select jsonb_agg(jsonb_build_object('name', stop ->> 'name', 'note', stop ->> 'note', 'spot', stop ->> 'spot',
          'beds', (select count(*) from jsonb_array_elements(quote.job -> 'beds') as bed where (bed ->> 'stop')::integer = at - 1))
          order by at)
        from jsonb_array_elements(quote.job -> 'stops') with ordinality as stops(stop, at)), '[]') as stops
    from booking join quote_request on quote_request.id = booking.quote_request_id
      join customer on customer.id = quote_request.customer_id join quote on quote.id = booking.quote_id
    where booking.called_off_at is null and quote_request.number = any(${numbers}::text[])`.execute(db)
  return new Map(rows.map(({ number, rules, stops }) => [number, { rules, stops }]))
}
