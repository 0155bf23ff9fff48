import { replaceKey } from '../key-check.ts'
import { type Command, CommandFault } from './command.ts'

/** The way on for a business that has lost its key. */
export const keyReplace: Command = {
  name: 'key replace',
  summary: 'switch to the key that is set now, if you lost the old one',
  help: [
    'Makes every active link again from the key in SECRET_KEY or in the file secret-key. The links homeowners have',
    'stop working, and the pages of their requests show you the new ones. First stop every instance that runs with',
    'the old key. Nobody is asked for codes from an app any more: those who want that set it up again.',
  ],
  async *atStore({ store, secretKey }) {
    if (!secretKey)
      throw new CommandFault('There’s no key yet: set SECRET_KEY, or start Bedwright once to make one.')
    const links = await replaceKey(store.db, secretKey)
    yield `The store uses this key now. Its active links (${links}) are new, and the old ones no longer work. Send homeowners the new ones. Nobody is asked for codes from an app any more.\n`
  },
}
