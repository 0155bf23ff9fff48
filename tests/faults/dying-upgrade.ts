/** A process that is killed while it brings a store up to date: `{ options, dies, when }` as JSON is its only argument. */
import { migrations } from '../../migrations/list.ts'
import { migrate } from '../../src/db/migrate.ts'
import { openStore, type StoreOptions } from '../../src/db/open.ts'

export interface Dying {
  options: StoreOptions
  /** The migration at which it dies, and whether that is before its first statement or after its last. */
  dies: string
  when: 'before' | 'after'
}

const { options, dies, when }: Dying = JSON.parse(process.argv[2]!)
const { up } = migrations[dies]!
const dying = async (db: Parameters<typeof up>[0]) => {
  if (when === 'after') await up(db)
  process.kill(process.pid, 'SIGKILL')
}
await migrate(await openStore(options), { ...migrations, [dies]: { up: dying } })
