import { type Kysely, sql } from 'kysely'

/**
 * One household is one customer, one property one place: a row that is the same as another points at it, and the
 * database keeps whom all of a group lead to. What they are recognised by stands in the rows; what was decided about a
 * pair stays, undone or not. Beds of a place are rows, and a request says which of them it was for.
 */
export async function up(db: Kysely<any>): Promise<void> {
  // Who phones may have no mail address, and who is met at the fence may have neither.
  await sql`alter table customer drop constraint customer_check`.execute(db)
  await sql`
    alter table customer add column phone_key text, add column email_key text,
      add column keyed_as text not null default ''`.execute(db)
  await sql`
    alter table place add column street_key text, add column postcode_key text not null default '',
      add column keyed_as text not null default ''`.execute(db)
  for (const column of ['phone_key', 'email_key'])
    await sql`create index ${sql.id(`customer_${column}`)} on customer (${sql.id(column)})`.execute(db)
  await sql`create index place_street_key on place (street_key)`.execute(db)
  await sql`create index place_customer on place (customer_id)`.execute(db)
  await sql`create index quote_request_customer on quote_request (customer_id)`.execute(db)
  await sql`create index quote_request_place on quote_request (place_id)`.execute(db)
  for (const table of ['customer', 'place']) await joinable(db, table)
  await beds(db)
}

async function joinable(db: Kysely<any>, name: string) {
  const table = sql.table(name)
  const decision = sql.table(`${name}_decision`)
  await sql`alter table ${table} add column joined_to bigint references ${table}, add column head_id bigint`.execute(
    db,
  )
  await sql`update ${table} set head_id = id`.execute(db)
  await sql`alter table ${table} alter column head_id set not null,
    add foreign key (head_id) references ${table}`.execute(db)
  await sql`create index ${sql.id(`${name}_head`)} on ${table} (head_id)`.execute(db)
  await sql`create index ${sql.id(`${name}_joined_to`)} on ${table} (joined_to)`.execute(db)
  // One after another, or two joins at once could make a round that neither of them sees.
  await sql`
    create function ${sql.id(`${name}_finds_head`)}() returns trigger language plpgsql as $$
    begin
      if tg_op = 'UPDATE' then
        perform pg_advisory_xact_lock(hashtext('${sql.raw(name)} joined'));
      end if;
      if new.joined_to is null then
        new.head_id := new.id;
        return new;
      end if;
      select head_id into new.head_id from ${table} where id = new.joined_to;
      if tg_op = 'UPDATE' and old.joined_to is not null and old.joined_to <> new.joined_to then
        raise exception 'joined already' using errcode = 'check_violation', constraint = ${sql.lit(`${name}_joined_once`)};
      end if;
      if new.head_id = new.id or new.head_id = old.id then
        raise exception 'joined in a round' using errcode = 'check_violation', constraint = ${sql.lit(`${name}_no_round`)};
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger finds_head before insert or update of joined_to on ${table}
    for each row execute function ${sql.id(`${name}_finds_head`)}()`.execute(db)
  await sql`
    create function ${sql.id(`${name}_tells_head`)}() returns trigger language plpgsql as $$
    begin
      with recursive below(id) as (
        select id from ${table} where joined_to = new.id
        union select ${table}.id from ${table} join below on ${table}.joined_to = below.id)
      update ${table} set head_id = new.head_id where id in (select id from below);
      return null;
    end $$`.execute(db)
  await sql`
    create trigger tells_head after update of joined_to on ${table}
    for each row execute function ${sql.id(`${name}_tells_head`)}()`.execute(db)
  await sql`
    create table ${decision} (
      id bigint generated always as identity primary key,
      one_id bigint not null references ${table},
      other_id bigint not null references ${table},
      verb text not null check (verb in ('joined', 'kept apart')),
      at timestamptz not null,
      account_id bigint not null references account,
      undone_at timestamptz,
      undone_by bigint references account,
      check (one_id <> other_id),
      check ((undone_at is null) = (undone_by is null))
    )`.execute(db)
  await sql`
    create unique index ${sql.id(`${name}_decision_standing`)}
    on ${decision} (least(one_id, other_id), greatest(one_id, other_id)) where undone_at is null`.execute(db)
  await sql`create index ${sql.id(`${name}_decision_one`)} on ${decision} (one_id)`.execute(db)
  await sql`create index ${sql.id(`${name}_decision_other`)} on ${decision} (other_id)`.execute(db)
}

async function beds(db: Kysely<any>) {
  await sql`
    create table bed (
      id bigint generated always as identity primary key,
      place_id bigint not null references place,
      source text not null check (source in ('homeowner', 'staff', 'visit', 'file')),
      told jsonb not null,
      understood jsonb,
      measured jsonb,
      measured_understood jsonb,
      measured_at timestamptz,
      made_at timestamptz not null,
      gone_at timestamptz,
      check ((measured is null) = (measured_at is null))
    )`.execute(db)
  await sql`create index bed_place on bed (place_id)`.execute(db)
  await sql`
    create table request_bed (
      quote_request_id bigint not null references quote_request,
      bed_id bigint not null references bed,
      told_position integer,
      measured_position integer,
      primary key (quote_request_id, bed_id),
      unique (quote_request_id, told_position),
      unique (quote_request_id, measured_position)
    )`.execute(db)
  await sql`create index request_bed_bed on request_bed (bed_id)`.execute(db)
}
