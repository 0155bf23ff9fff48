import { isStoresKey } from '../key-check.ts'
import { type Command, CommandFault } from './command.ts'

/** Whether the key at hand is the right one, as before a backup is needed. */
export const keyCheck: Command = {
  name: 'key check',
  summary: 'say whether the key is the one that links were made from',
  help: [
    'Holds the key in SECRET_KEY, or else in the file secret-key, against what the store keeps of the right one, and',
    'changes nothing. To try your copy of the key, set SECRET_KEY to it while Bedwright is stopped.',
  ],
  async *atStore({ store, secretKey }) {
    if (!secretKey)
      throw new CommandFault('There’s no key here: set SECRET_KEY, or put the file secret-key back.')
    const known = await store.db.selectFrom('key_check').select('value').executeTakeFirst()
    if (!known)
      throw new CommandFault('The store knows no key yet. It takes the first that Bedwright is started with.')
    if (!(await isStoresKey(store.db, secretKey)))
      throw new CommandFault('This isn’t the key that the store’s links were made from.')
    yield 'This is the key that the store’s links were made from.\n'
  },
}
