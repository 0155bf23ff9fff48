import { resolve } from 'node:path'
import { backupFolder, newBackupFile } from '../backup/folder.ts'
import type { End } from '../backup/format.ts'
import { takeSnapshot } from '../backup/snapshot.ts'
import { packBackup, writeBackup } from '../backup/write-backup.ts'
import { findMigrations } from '../db/migrate.ts'
import type { Seal } from '../lib/age.ts'
import { bytesInWords } from '../lib/bytes.ts'
import { keyFile } from '../secret-key.ts'
import { type Command, CommandFault, type Here } from './command.ts'
import { askedSeal, SEALING } from './seals.ts'

const STANDARD_OUTPUT = '-'

/** All but the key in one file, also while the service runs. */
export const backup: Command = {
  name: 'backup',
  takes: '[FILE]',
  most: 1,
  options: SEALING,
  summary: 'save everything but the key in one file, even while Bedwright runs',
  help: [
    'Saves everything in the database, photos too, as it is at one moment. `restore` puts the file into an empty',
    'store of either kind. Without FILE it goes into the folder backups in DATA_DIR, named by the time in UTC; with -',
    'to standard output (then run node src/command/main.ts by itself, as npm prints its own lines there).',
    'It never overwrites a file, and a backup that was cut short never gets its name.',
    'The key that links are made from isn’t in it. Keep a copy somewhere else.',
    '--recipient age1… encrypts it so that only the holder of that key can read it; repeat it for more. Without it,',
    'BACKUP_RECIPIENTS counts. --passphrase-file FILE encrypts it with the passphrase in FILE instead. The program age',
    'opens it too.',
  ],
  takesOlderStore: true,
  async *atStore({ config, store, now }) {
    if ((await findMigrations(store.db)).length === 0)
      throw new CommandFault('There’s nothing in that store yet, so there’s nothing to back up.')
    const snapshot = await takeSnapshot(store, now(), backupFolder(config.dataDir))
    try {
      yield* snapshot.lines()
    } finally {
      await snapshot.close()
    }
  },
  async run(here, asked) {
    const [named] = asked.words
    const seal = askedSeal(here, backup, asked)
    if (named === STANDARD_OUTPUT) return toStandardOutput(here, seal)
    const file = resolve(named ?? newBackupFile(here.config.dataDir, 'bedwright', here.now(), seal))
    const { size, end } = await writeBackup(here.ask(), file, { signal: here.interruption(), seal })
    here.say(`Backed up ${requestsOf(end)} to ${file} (${bytesInWords(size)}${seal ? ', encrypted' : ''}).`)
    here.say(aboutKey(here))
  },
}

async function toStandardOutput(here: Here, seal: Seal | null): Promise<void> {
  if (here.out.isTTY)
    throw new CommandFault('A backup isn’t text for a screen: name a file, or redirect it with >.')
  const end = await packBackup(here.ask(), here.out, { signal: here.interruption(), seal })
  here.sayAside(`Backed up ${requestsOf(end)}.`)
  here.sayAside(aboutKey(here))
}

function requestsOf({ rows }: End): string {
  const requests = rows.quote_request ?? 0
  return `${requests} quote ${requests === 1 ? 'request' : 'requests'}`
}

function aboutKey({ config }: Here): string {
  const key = config.secretKey ? 'what SECRET_KEY is set to' : resolve(keyFile(config.dataDir))
  return `The key that links are made from isn’t in it. Keep a copy of ${key} too, somewhere other than the backups.`
}
