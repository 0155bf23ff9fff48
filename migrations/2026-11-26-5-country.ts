import { type Kysely, sql } from 'kysely'

/**
 * The country of the business, by its ISO 3166 code; ZZ, which stands for none, is any other than those to pick from.
 * No row is written: an update would raise the standing number, also of a store that is empty.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table business add column country text not null default 'US'`.execute(db)
  await sql`
    alter table business
      alter column country drop default,
      alter column country type text using case units when 'us' then 'US' else 'ZZ' end,
      add check (country ~ '^[A-Z]{2}$')`.execute(db)
}
