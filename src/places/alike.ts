import { type Kysely, type RawBuilder, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Kind } from './queries.ts'

/** So many of each sign are looked at: what half the town shares, as the number of an office, tells nothing. */
const LOOKED_AT = 50
const MOST_OFFERED = 5

export interface Alike {
  /** The head of the other one's group. */
  head_id: number
  /** As that was told first, with its oldest address. */
  name: string
  street: string
  postcode: string
  phone: boolean
  email: boolean
  address: boolean
}

/**
 * Other customers who may be the same as the one whose group has this head: by phone, mail address, or the address of a
 * place. Those that somebody keeps apart aren't among them. The likeliest first, five at most.
 */
export async function findAlikeCustomers(db: Kysely<Database>, headId: number): Promise<Alike[]> {
  const signs = sql`
    with mine as (select id, phone_key, email_key from customer where head_id = ${headId}),
    here as (select street_key, postcode_key from place where customer_id in (select id from mine)
      and street_key is not null),
    signs as (
      (select head_id, 'phone' as sign from customer
        where phone_key in (select phone_key from mine) and head_id <> ${headId} limit ${LOOKED_AT})
      union (select head_id, 'email' from customer
        where email_key in (select email_key from mine) and head_id <> ${headId} limit ${LOOKED_AT})
      union (select customer.head_id, 'address' from here join place using (street_key)
        join customer on customer.id = place.customer_id
        where ${samePostcode('here', 'place')} and customer.head_id <> ${headId} limit ${LOOKED_AT}))`
  return found(db, 'customer', headId, signs)
}

/** Other places that may be the same as the one whose group has this head, by their address. */
export async function findAlikePlaces(db: Kysely<Database>, headId: number): Promise<Alike[]> {
  const signs = sql`
    with mine as (select street_key, postcode_key from place where head_id = ${headId}),
    signs as (
      select place.head_id, 'address' as sign from mine join place using (street_key)
      where ${samePostcode('mine', 'place')} and place.head_id <> ${headId} limit ${LOOKED_AT})`
  return found(db, 'place', headId, signs)
}

async function found(db: Kysely<Database>, kind: Kind, headId: number, signs: RawBuilder<unknown>) {
  const { rows } = await sql<Alike>`
    ${signs}
    select signs.head_id, name, street, postcode, bool_or(sign = 'phone') as phone,
      bool_or(sign = 'email') as email, bool_or(sign = 'address') as address
    from signs join lateral (${FIRST_TOLD[kind]}) as told on true
    where not exists (${keptApart(kind, sql`signs.head_id`, sql`${headId}::bigint`)})
    group by signs.head_id, name, street, postcode
    order by count(*) desc, signs.head_id limit ${MOST_OFFERED}`.execute(db)
  return rows
}

// A postcode that wasn't told fits any.
function samePostcode(one: string, other: string) {
  const [a, b] = [sql.ref(`${one}.postcode_key`), sql.ref(`${other}.postcode_key`)]
  return sql`(${a} = ${b} or ${a} = '' or ${b} = '')`
}

const FIRST_TOLD: Record<Kind, RawBuilder<unknown>> = {
  customer: sql`
    select customer.name, coalesce(place.street, '') as street, coalesce(place.postcode, '') as postcode
    from customer left join place on place.customer_id = customer.id
    where customer.id = signs.head_id order by place.id limit 1`,
  place: sql`
    select customer.name, place.street, place.postcode from place join customer on customer.id = place.customer_id
    where place.id = signs.head_id`,
}

/** The standing decision that keeps two groups apart, whichever of their rows it was made about. */
function keptApart(kind: Kind, one: RawBuilder<unknown>, other: RawBuilder<unknown>) {
  const table = sql.table(kind)
  return sql`
    select 1 from ${sql.table(`${kind}_decision`)} as decision
    join ${table} as a on a.id = decision.one_id join ${table} as b on b.id = decision.other_id
    where decision.verb = 'kept apart' and decision.undone_at is null
      and ((a.head_id = ${one} and b.head_id = ${other}) or (a.head_id = ${other} and b.head_id = ${one}))`
}
