import type { Store } from '../../src/db/open.ts'

/** Where a table has grown larger than this, its dead rows would make the next tests slow. */
const SWOLLEN = 500_000

/**
 * Leaves a store as its migrations made it, as long as its tables are the same still: every row goes but those that
 * say which migrations it has had, numbers begin at 1 again, and so does whatever made a schema of its own, as the
 * job queue does. Passes by the triggers that keep rows as they were made.
 */
export async function emptyTables(store: Store): Promise<void> {
  const { rows } = await store.executeSql(`
    select array(select format('drop schema %I cascade', nspname) from pg_namespace
        where nspname !~ '^(pg_|information_schema$|public$)') as drops,
      array(select format('public.%I', tablename) from pg_tables
        where schemaname = 'public' and tablename !~ '^kysely_') as tables,
      exists (select from pg_class where relnamespace = 'public'::regnamespace and relkind in ('r', 't')
        and pg_relation_size(oid) > ${SWOLLEN}) as swollen`)
  const { drops, tables, swollen } = rows[0] as { drops: string[]; tables: string[]; swollen: boolean }
  // Deleting a few rows takes a tenth of the time of truncating.
  const emptied = swollen
    ? [`truncate ${tables} restart identity`]
    : ['set local session_replication_role = replica', ...tables.map(table => `delete from ${table}`)]
  const ended = ['delete from standing_number', numbersFrom({})]
  await store.executeSql(['reset all', 'begin', ...drops, ...emptied, ...ended, 'commit'].join(';\n'))
}

/** What is in the tables of a store, as SQL that puts it into the same store when that is empty. */
export async function keptRows(store: Store): Promise<string> {
  const { rows: found } = await store.executeSql(`
    select format('public.%I', tablename) as name from pg_tables
    where schemaname = 'public' and tablename !~ '^kysely_' order by tablename`)
  const tables = (found as { name: string }[]).map(({ name }) => name)
  const { rows } = await store.executeSql(
    `select array[${tables.map(name => `(select json_agg(t)::text from ${name} as t)`)}] as rows,
      array(select json_build_array(sequencename, last_value)::text from pg_sequences
        where schemaname = 'public' and last_value is not null) as numbers`,
  )
  const { rows: contents, numbers } = rows[0] as { rows: (string | null)[]; numbers: string[] }
  const inserts = tables.flatMap((name, nth) => {
    const json = contents[nth]?.replaceAll("'", "''")
    return json
      ? [
          `insert into ${name} overriding system value
      select * from json_populate_recordset(null::${name}, '${json}')`,
        ]
      : []
  })
  const last = Object.fromEntries(numbers.map(pair => JSON.parse(pair)))
  const replica = 'set local session_replication_role = replica'
  return ['begin', replica, ...inserts, numbersFrom(last), 'commit'].join(';\n')
}

/** SQL by which each sequence that has given a number goes on after the one that is named, or from its beginning. */
function numbersFrom(last: Record<string, number>): string {
  const named = Object.entries(last).map(([name, value]) => `setval('public.${name}', ${value})`)
  const others = `select setval(quote_ident(sequencename)::regclass, 1, false) from pg_sequences
    where schemaname = 'public' and last_value is not null`
  return named.length > 0 ? `select ${named}` : others
}

/** Changes with every change of tables, columns, constraints, triggers and functions, and is much cheaper than the shape. */
export async function versionOf(store: Store): Promise<string> {
  const { rows } = await store.executeSql(`
    with parts(part) as (
      select concat_ws(' ', 'class', oid, xmin) from pg_class where relnamespace = 'public'::regnamespace
      union all select concat_ws(' ', attrelid, attnum, pg_attribute.xmin)
        from pg_attribute join pg_class on pg_class.oid = attrelid where relnamespace = 'public'::regnamespace
      union all select concat_ws(' ', 'constraint', oid, xmin) from pg_constraint
        where connamespace = 'public'::regnamespace
      union all select concat_ws(' ', 'trigger', pg_trigger.oid, pg_trigger.xmin)
        from pg_trigger join pg_class on pg_class.oid = tgrelid where relnamespace = 'public'::regnamespace
      union all select concat_ws(' ', 'function', oid, xmin) from pg_proc where pronamespace = 'public'::regnamespace)
    select md5(string_agg(part, e'\\n' order by part)) as version from parts`)
  return (rows as { version: string }[])[0]!.version
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
