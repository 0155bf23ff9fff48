import { type Kysely, sql } from 'kysely'

/**
 * An ended request with money held is under Collect by place_in_queue itself: a trigger after it put it there anew each time, so
 * that a hold was taken back as by a change of step.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create function has_money_held(request quote_request) returns boolean language sql stable as $$
      select request.stage in ('called off', 'not taken', 'can''t do', 'lapsed')
        and (select coalesce(sum(amount), 0) from payment where quote_request_id = request.id) > 0
        and not exists (select 1 from deposit_settled where quote_request_id = request.id)
    $$`.execute(db)
  const { rows } = await sql<{ made: string }>`
    select pg_get_functiondef('place_in_queue'::regproc) as made`.execute(db)
  // Only these lines are put in, so that it is right beside whatever else is made of the function.
  const changed = rows[0]!.made.replace(
    /\n( *)if tg_op = 'UPDATE' and \(new\.stage_at/,
    `
$1if new.step is null and has_money_held(new) then
$1  new.step := 'Collect';
$1  new.due_at := new.stage_at;
$1end if;$&`,
  )
  if (changed === rows[0]!.made) throw new Error('place_in_queue is not as it was.')
  await sql.raw(changed).execute(db)
  await sql`drop trigger place_under_collect on quote_request`.execute(db)
  await sql`drop function place_under_collect`.execute(db)
}
