import { type Kysely, sql } from 'kysely'

/** One row at most: what the key that links are made from is known again by. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table key_check (
      "only" boolean primary key default true check ("only"),
      value text not null check (value <> '')
    )`.execute(db)
}
