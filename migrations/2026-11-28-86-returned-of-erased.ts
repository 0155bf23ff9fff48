import { type Kysely, sql } from 'kysely'

/**
 * A check may come back after its person was erased: what was paid is undone then, and the request, which stays as it was, no longer says so. Of all
 * others the stage still is what bills and payments say.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create or replace function stage_fits_money() returns trigger language plpgsql as $$
    declare
      wanted bigint := coalesce((to_jsonb(new)->>'quote_request_id')::bigint, (to_jsonb(new)->>'id')::bigint);
      the_stage text := (select stage from quote_request where id = wanted);
      stands boolean;
    begin
      if not exists (select 1 from bill where quote_request_id = wanted) then
        return null;
      end if;
      stands := exists (select 1 from bill made where quote_request_id = wanted and kind = 'bill'
        and not exists (select 1 from bill credit where credit.undoes = made.id));
      if the_stage = 'paid' and stands and tg_table_name = 'payment' and (to_jsonb(new)->>'returned')::boolean
         and exists (select 1 from quote_request where id = wanted and erased_at is not null) then
        return null;
      end if;
      if stands <> (the_stage in ('billed', 'paid')) or (stands and (the_stage = 'paid') <> (money_owed(wanted) = 0)) then
        raise exception 'a request is billed or paid as its bills and payments say' using errcode = 'check_violation',
          constraint = 'stage_fits_money';
      end if;
      return null;
    end $$`.execute(db)
}
