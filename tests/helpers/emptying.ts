import type { Store } from '../../src/db/open.ts'

/**
 * Leaves a store as its migrations made it, as long as its tables are the same still: every row goes but those that
 * say which migrations it has had, numbers begin at 1 again, and so does whatever made a schema of its own, as the
 * job queue does. Truncating passes by the triggers that keep rows as they were made.
 */
export async function emptyTables(store: Store): Promise<void> {
  await store.executeSql(`
    reset all;
    do $$
    declare
      added text;
      tables text;
    begin
      for added in select nspname from pg_namespace where nspname !~ '^(pg_|information_schema$|public$)' loop
        execute format('drop schema %I cascade', added);
      end loop;
      select string_agg(format('public.%I', tablename), ', ') into tables
      from pg_tables where schemaname = 'public' and tablename !~ '^kysely_';
      execute 'truncate ' || tables || ' restart identity cascade';
      -- Emptying the others has raised it.
      delete from standing_number;
    end $$`)
}

/** Tables, columns, constraints, indexes, triggers and functions of a store as one hash. */
export async function shapeOf(store: Store): Promise<string> {
  const { rows } = await store.executeSql(`
    with parts(part) as (
      select concat_ws(' ', relkind, relname) from pg_class where relnamespace = 'public'::regnamespace
      union all select concat_ws(' ', attrelid::regclass, attname, atttypid::regtype, atttypmod, attnotnull,
          pg_get_expr(adbin, adrelid))
        from pg_attribute join pg_class on pg_class.oid = attrelid
          left join pg_attrdef on adrelid = attrelid and adnum = attnum
        where relnamespace = 'public'::regnamespace and relkind <> 'i' and attnum > 0
      union all select concat_ws(' ', conrelid::regclass, conname, pg_get_constraintdef(oid)) from pg_constraint
        where connamespace = 'public'::regnamespace
      union all select pg_get_indexdef(indexrelid) from pg_index join pg_class on pg_class.oid = indexrelid
        where relnamespace = 'public'::regnamespace
      union all select concat_ws(' ', tgenabled, pg_get_triggerdef(pg_trigger.oid))
        from pg_trigger join pg_class on pg_class.oid = tgrelid where relnamespace = 'public'::regnamespace
      union all select concat_ws(' ', proname, prosrc) from pg_proc where pronamespace = 'public'::regnamespace)
    select md5(string_agg(part, e'\\n' order by part)) as shape from parts`)
  return (rows as { shape: string }[])[0]!.shape
}
