import { type Kysely, sql } from 'kysely'

/** One row at most: how the last nightly backups of this store went. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table store_backup (
      "only" boolean primary key default true check ("only"),
      tried_at timestamptz not null,
      made_at timestamptz check (made_at <= tried_at),
      bytes bigint check (bytes > 0),
      fault text check (fault <> ''),
      check ((made_at is null) = (bytes is null)),
      check (fault is not null or made_at = tried_at)
    )`.execute(db)
}
