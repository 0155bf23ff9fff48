import { type Kysely, sql } from 'kysely'

const OVER = sql.raw(`in ('paid', 'called off', 'not taken', 'can''t do', 'lapsed')`)

/**
 * The links of a request end 18 months after it did, as next year's work is asked for by them, and no longer end once it
 * is taken up again. The one that confirms a mail address has an end of its own.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create function links_follow_stage() returns trigger language plpgsql as $$
    begin
      update link set ends_at = case when new.stage ${OVER} then new.stage_at + interval '18 months' end
        where quote_request_id = new.id and purpose <> 'email address' and revoked_at is null;
      return null;
    end $$`.execute(db)
  await sql`
    create trigger links_follow_stage after update of stage on quote_request
    for each row when (new.stage is distinct from old.stage) execute function links_follow_stage()`.execute(
    db,
  )
  await sql`
    create function link_of_ended() returns trigger language plpgsql as $$
    begin
      if new.purpose <> 'email address' and new.ends_at is null then
        new.ends_at := (select greatest(stage_at, new.made_at) + interval '18 months' from quote_request
          where id = new.quote_request_id and stage ${OVER});
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger link_of_ended before insert on link for each row execute function link_of_ended()`.execute(
    db,
  )
  await sql`
    update link set ends_at = stage_at + interval '18 months' from quote_request
    where quote_request.id = quote_request_id and stage ${OVER} and purpose <> 'email address' and revoked_at is null`.execute(
    db,
  )
}
