import { type Kysely, sql } from 'kysely'

/** By what of a load list an order was noted as come: undone there, the order is to come again. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table supply_order add column load_got_id bigint references load_got`.execute(db)
  await sql`
    update supply_order set load_got_id = load_got.id from load_got
    where load_got.key = 'order ' || supply_order.id and load_got.undone_at is null`.execute(db)
  await sql`
    create index supply_order_by_got on supply_order (load_got_id) where load_got_id is not null`.execute(db)
  await sql`
    alter table supply_order add constraint supply_order_got_once_it_came
      check (load_got_id is null or state = 'delivered')`.execute(db)
}
