import { checkAll } from '../operations/check-all.ts'
import { type Command, CommandFault } from './command.ts'

const MARK = { good: 'good ', look: 'look ', wrong: 'WRONG' }

/** What is well and what is not, before a person finds out. */
export const doctor: Command = {
  name: 'doctor',
  summary: 'say what is well, what is wrong, and what to do about it',
  help: [
    'Looks at the versions, the data, the disk, the clock, the key, the address, messages and backups. Each gets a line',
    'that says good, look or WRONG, and below it what to do. It changes nothing, and fails when something is wrong. Mail',
    'is tried for real by "test-mail".',
  ],
  async *atStore({ store, ...at }) {
    const checks = await checkAll({ ...at, db: store.db, kind: store.kind })
    for (const { what, is, says, todo } of checks) {
      yield `${MARK[is]}  ${what}: ${says}\n`
      if (todo) yield `       ${todo}\n`
    }
    const count = checks.filter(({ is }) => is === 'wrong').length
    if (count > 0) throw new CommandFault(count === 1 ? '1 thing is wrong.' : `${count} things are wrong.`)
  },
}
