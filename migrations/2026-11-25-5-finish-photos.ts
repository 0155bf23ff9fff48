import { type Kysely, sql } from 'kysely'

/** Photos of finishes, each under the SHA-256 of its bytes: rate tables name them, so they are kept as they were made. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table finish_photo (
      name text primary key check (name ~ '^[0-9a-f]{64}$'),
      picture bytea not null check (name = encode(sha256(picture), 'hex')),
      width integer not null check (width > 0),
      height integer not null check (height > 0),
      made_at timestamptz not null,
      made_by bigint not null references account
    )`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on finish_photo
    for each row execute function refuse_change()`.execute(db)
}
