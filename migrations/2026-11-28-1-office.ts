import { type Kysely, sql } from 'kysely'

/** A role between owner and helper, invitations to either, who changed whose role, and that an owner is always left. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table account
      drop constraint account_role_check,
      add constraint account_role_check check (role in ('owner', 'office', 'helper'))`.execute(db)
  await sql`
    alter table invitation
      add column role text not null default 'helper' check (role in ('office', 'helper'))`.execute(db)
  await sql`
    create table role_change (
      id bigint generated always as identity primary key,
      account_id bigint not null references account,
      was text not null check (was in ('owner', 'office', 'helper')),
      becomes text not null check (becomes in ('owner', 'office', 'helper')),
      made_at timestamptz not null,
      made_by bigint not null references account,
      check (was <> becomes)
    )`.execute(db)
  await sql`create index role_change_of on role_change (account_id, id)`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on role_change
    for each row execute function refuse_change()`.execute(db)
  await sql`
    create function keep_an_owner() returns trigger language plpgsql as $$
    begin
      if not exists (select from account where role = 'owner' and ended_at is null) then
        raise exception 'there has to be an owner'
          using errcode = 'check_violation', constraint = 'account_keeps_owner';
      end if;
      return null;
    end $$`.execute(db)
  await sql`
    create trigger keep_an_owner after update of role, ended_at or delete on account
    for each row when (old.role = 'owner') execute function keep_an_owner()`.execute(db)
}
