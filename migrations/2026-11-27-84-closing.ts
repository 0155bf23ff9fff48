import { type Kysely, sql } from 'kysely'

/**
 * How a job went, in versions that are only ever added: as it was closed first, as it was mended, and that it was opened
 * again. The newest counts. What of each line was done stands beside a job that was stopped.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await closings(db)
  await sharesDone(db)
  await underLoad(db)
}

async function closings(db: Kysely<any>) {
  await sql`
    create table job_closing (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      version integer not null check (version > 0),
      outcome text not null check (outcome in ('done', 'part done', 'stopped', 'reopened')),
      as_planned boolean not null,
      first_day date,
      last_day date,
      trips integer check (trips between 0 and 200),
      note text not null,
      made_at timestamptz not null,
      made_by bigint not null references account,
      constraint job_closing_in_turn unique (quote_request_id, version),
      constraint job_closing_days check (case when outcome = 'reopened' then first_day is null and last_day is null
        else first_day is not null and last_day is not null and first_day <= last_day end)
    )`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on job_closing
    for each row execute function refuse_change()`.execute(db)
}

async function sharesDone(db: Kysely<any>) {
  await sql`
    create table job_share_done (
      closing_id bigint not null references job_closing,
      quote_id bigint not null,
      position integer not null,
      stop integer check (stop >= 0),
      share numeric(5,4) not null check (share between 0 and 1),
      unique nulls not distinct (closing_id, position, stop),
      foreign key (quote_id, position) references quote_line (quote_id, position)
    )`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on job_share_done
    for each row execute function refuse_change()`.execute(db)
}

// Of a job that is part done what counts is the day of the rest. Its name comes after place_in_queue.
async function underLoad(db: Kysely<any>) {
  await sql`
    create function place_rest() returns trigger language plpgsql as $$
    begin
      if new.stage = 'part done' and new.step = 'Load' and new.call_again_at is null then
        new.due_at := coalesce((select min(booking_day.day)::timestamp at time zone (select time_zone from business)
          from booking join booking_day on booking_day.booking_id = booking.id
          where booking.quote_request_id = new.id and booking.called_off_at is null and booking_day.day > (select last_day
            from job_closing where quote_request_id = new.id and outcome = 'part done' order by version desc limit 1)),
          new.due_at);
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger place_rest before insert or update on quote_request
    for each row execute function place_rest()`.execute(db)
  await sql`
    create function place_rest_of_booking() returns trigger language plpgsql as $$
    begin
      update quote_request set stage = stage where stage = 'part done'
        and id = (select quote_request_id from booking where booking.id = new.booking_id);
      return null;
    end $$`.execute(db)
  await sql`
    create trigger place_rest after insert on booking_day
    for each row execute function place_rest_of_booking()`.execute(db)
}
