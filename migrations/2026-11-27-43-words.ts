import { type Kysely, sql } from 'kysely'

/** The owner's own words for what messages say, in place of ours. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table message_words (
      key text not null,
      language text not null check (language in ('en', 'es')),
      words text not null,
      primary key (key, language)
    )`.execute(db)
}
