import { type Kysely, sql } from 'kysely'

/** The log of who took data out has entries of what takes everybody's out as well: all customers in a file, and the accountant's books. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table access_log
      drop constraint access_log_verb_check,
      add constraint access_log_verb_check
        check (verb in ('exported', 'customers exported', 'books exported', 'erased', 'papers erased'))`.execute(
    db,
  )
}
