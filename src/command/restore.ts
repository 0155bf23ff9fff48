import { resolve } from 'node:path'
import { checkBackup } from '../backup/read-backup.ts'
import { restoreBackup } from '../backup/restore.ts'
import type { Store } from '../db/open.ts'
import { isStoresKey } from '../key-check.ts'
import { eraseAgain, tellErasedAgain } from '../privacy/erase-again.ts'
import { findSecretKey, keyFile } from '../secret-key.ts'
import type { Command, Here } from './command.ts'
import { openAlone } from './open-alone.ts'
import { askedOpener, OPENING } from './seals.ts'

/** A backup back into an empty store. */
export const restore: Command = {
  name: 'restore',
  takes: 'FILE',
  least: 1,
  most: 1,
  options: OPENING,
  summary: 'put a backup into an empty store, while Bedwright is stopped',
  help: [
    'Puts a file that `backup` saved into an empty store of either kind, all of it or nothing. A store is empty if it’s',
    'new, or if Bedwright was started on it but never set up. The file is checked before anything is written. A file',
    'from an older Bedwright is brought up to date. One from a newer Bedwright is refused. Messages that weren’t sent',
    'yet are queued again. Put the key from that time back too, or the links people have won’t work.',
    'Whoever was erased since is erased again, as erased.jsonl in DATA_DIR says.',
    'An encrypted one needs --identity FILE with the private key, as age-keygen writes it, or --passphrase-file FILE.',
  ],
  async run(here, asked) {
    const [named] = asked.words
    const backup = await checkBackup(resolve(named!), askedOpener(restore, asked))
    const store = await openAlone(here.config)
    try {
      const { rows, queued } = await restoreBackup(store, backup, here.now())
      const { at, version } = backup.head
      here.say(
        `Restored ${counted(rows.quote_request ?? 0, 'quote request')}, as of ${at}, from Bedwright ${version}.`,
      )
      if (queued > 0) here.say(`Queued again: ${counted(queued, 'message')} that hadn’t been sent.`)
      const again = await eraseAgain(store.db, here.config.dataDir, here.now())
      for (const line of tellErasedAgain(again)) here.say(line)
      here.say(await aboutKey(here, store))
    } finally {
      await store.close()
    }
  },
}

/** Without the store's own key the start is refused. */
async function aboutKey({ config }: Here, { db }: Store): Promise<string> {
  const key = findSecretKey(config.secretKey, config.dataDir)
  if (key && (await isStoresKey(db, key))) return 'Start Bedwright now. The links people have work as before.'
  const place = config.secretKey ? 'SECRET_KEY' : resolve(keyFile(config.dataDir))
  return `Before you start Bedwright, put the key from that time into ${place}: the links people have don’t work with any other.`
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`
}
