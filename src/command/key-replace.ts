import { replaceKey } from '../key-check.ts'
import { type Command, CommandFault } from './command.ts'

/** The way on for a business that has lost its key. */
export const keyReplace: Command = {
  name: 'key replace',
  summary: 'have the store take the key that is set now, if you lost the old one',
  help: [
    'Every standing link is made anew from the key in SECRET_KEY or in the file secret-key. The links that homeowners',
    'hold stop working; the pages of their requests show you the new ones. Stop every instance that runs with the old',
    'key first.',
  ],
  async *atStore({ store, secretKey }) {
    if (!secretKey)
      throw new CommandFault('There is no key yet: set SECRET_KEY, or start Bedwright once to make one.')
    const links = await replaceKey(store.db, secretKey)
    yield `The store takes this key, and the active links (${links}) are made from it now. Links from another key no longer work: send homeowners the new ones.\n`
  },
}
