import { type Kysely, sql } from 'kysely'

/** The country of the business, by its ISO 3166 code; ZZ, which stands for none, is any other than those to pick from. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table business add column country text check (country ~ '^[A-Z]{2}$')`.execute(db)
  await sql`update business set country = case units when 'us' then 'US' else 'ZZ' end`.execute(db)
  await sql`alter table business alter column country set not null`.execute(db)
}
