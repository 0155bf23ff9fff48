import { type Kysely, sql } from 'kysely'

/** Lines of labour apart, setting up, a discount or surcharge and tax; a quote keeps its terms and its tax. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table quote_line drop constraint quote_line_kind_check`.execute(db)
  await sql`
    alter table quote_line add constraint quote_line_kind_check check (kind in ('finish', 'laying', 'size', 'set-up',
      'extra', 'travel', 'adjustment', 'minimum', 'other', 'tax'))`.execute(db)
  await sql`
    alter table quote
      add column terms jsonb not null default '{"work": "upkeep", "exempt": "", "adjustment": null}',
      add column tax jsonb`.execute(db)
}
