/** A process that is killed in the middle of its second migration. Its only argument is what `openStore` takes, as JSON. */
import type { Migration } from 'kysely/migration'
import { migrate } from '../../src/db/migrate.ts'
import { openStore } from '../../src/db/open.ts'

/** What a whole run leaves: a shed with one spade in it. */
export const migrations: Record<string, Migration> = {
  '2026-01-01-1-shed': { up: db => db.schema.createTable('shed').addColumn('tool', 'text').execute() },
  '2026-01-02-1-spade': {
    up: async db => {
      await db.insertInto('shed').values({ tool: 'spade' }).execute()
      await db.schema.alterTable('shed').addColumn('bought', 'date').execute()
      if (import.meta.main) process.kill(process.pid, 'SIGKILL')
    },
  },
}

if (import.meta.main) await migrate(await openStore(JSON.parse(process.argv[2]!)), migrations)
