import { offerPasswordReset } from '../account/password-reset.ts'
import { setUpAddress } from '../first-run/first-run.ts'
import { isStoresKey } from '../key-check.ts'
import type { AtStore, Command } from './command.ts'

/** The way back in for an owner who has lost the password. */
export const ownerReset: Command = {
  name: 'owner reset',
  summary: 'print a link for the owner to choose a new password',
  help: [
    'Prints a link that starts with PUBLIC_URL, is good for half an hour, and works once. The owner chooses a new',
    'password there, which signs the account out everywhere and turns off codes from an app. Asking again turns off the',
    'earlier link.',
    'Before the business is set up, it prints the setup address instead.',
  ],
  async *atStore(at) {
    const offer = await offerPasswordReset(at.store.db, at.now())
    if (!offer) return yield await beforeSetUp(at)
    yield `For ${offer.email}, good once, for half an hour:\n\n`
    yield `  ${at.config.publicUrl}/new-password/${offer.token}\n\n`
    yield 'Any earlier link no longer works. A new password chosen there also turns off codes from an app.\n'
  },
}

async function beforeSetUp({ config, store, secretKey }: AtStore): Promise<string> {
  const known = secretKey && (await isStoresKey(store.db, secretKey))
  const address = known && (await setUpAddress({ config, db: store.db, secretKey }))
  if (address) return `There’s no owner yet. Set Bedwright up, once, at ${address}\n`
  return 'There’s no owner yet. Start Bedwright: it prints the setup address.\n'
}
