import { type Kysely, sql } from 'kysely'

/**
 * A quote says why its price is what it is, in both languages; the business answers what homeowners ask beside it; and
 * a second link reads the price without being able to accept it.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table quote add column why jsonb`.execute(db)
  await sql`
    alter table business
      add column answers jsonb not null default '{}',
      add column show_rates boolean not null default false`.execute(db)
  await sql`
    alter table link
      drop constraint link_purpose_check,
      add constraint link_purpose_check check (purpose in ('own page', 'booking', 'email address', 'reading'))`.execute(
    db,
  )
}
