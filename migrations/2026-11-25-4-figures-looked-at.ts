import { type Kysely, sql } from 'kysely'

/** Which of the figures that rate tables start with the owner has looked at, each with the value that it had. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table figure_looked_at (
      key text not null,
      figure text not null,
      at timestamptz not null,
      by bigint not null references account,
      primary key (key, figure)
    )`.execute(db)
}
