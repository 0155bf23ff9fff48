import { constants, copyFileSync, existsSync } from 'node:fs'
import { resolve } from 'node:path'
import { sql } from 'kysely'
import { requireEmpty } from '../backup/empty-store.ts'
import { checkBackup } from '../backup/read-backup.ts'
import { restoreBackup } from '../backup/restore.ts'
import { type Config, readTargetConfig } from '../config.ts'
import { findMigrations, refuseNewer } from '../db/migrate.ts'
import type { Store } from '../db/open.ts'
import { newKeyPair, type Opener, type Seal } from '../lib/age.ts'
import { backUpBefore } from '../operations/nightly-backup.ts'
import { keyFile } from '../secret-key.ts'
import { type Command, CommandFault, type Here, Misused } from './command.ts'
import { seeHelp } from './help.ts'
import { openAlone } from './open-alone.ts'

/** From one store into another, of either kind. */
export const move: Command = {
  name: 'move',
  takes: '[FOLDER]',
  most: 1,
  summary: 'copy everything into another empty store, while Bedwright is stopped',
  help: [
    'Copies everything from the store that is set into an empty one: the embedded store in FOLDER, or without FOLDER the',
    'PostgreSQL database that TO_DATABASE_URL names (or the file that TO_DATABASE_URL_FILE names). Every table is counted',
    'on both sides. Photos, links and passwords work there as before, and messages that weren’t sent yet are queued',
    'there. The old store stays as it is: don’t start it again, or homeowners get those messages twice.',
  ],
  async run(here, { words: [folder] }) {
    const target = readTargetConfig(folder, here.env)
    if (!target) throw new Misused(`Name a FOLDER, or set TO_DATABASE_URL. ${seeHelp(move)}`)
    requireAnother(here.config, target)
    const from = await openAlone(here.config)
    try {
      await requireFilled(from)
      const to = await openAlone(target)
      await copyAll(here, from, to).finally(to.close)
    } finally {
      await from.close()
    }
    here.say(await aboutKey(here.config, target))
    here.say(
      target.databaseUrl
        ? 'Now set DATABASE_URL to the new database, and start Bedwright.'
        : `Now set DATA_DIR to ${resolve(target.dataDir)}, leave DATABASE_URL out, and start Bedwright.`,
    )
  },
}

function requireAnother(from: Config, to: Config): void {
  const same = from.databaseUrl
    ? from.databaseUrl === to.databaseUrl
    : !to.databaseUrl && resolve(from.dataDir) === resolve(to.dataDir)
  if (same) throw new CommandFault('That is the store it is in already.')
}

async function requireFilled(from: Store): Promise<void> {
  const had = await findMigrations(from.db)
  refuseNewer(had)
  if (had.length === 0)
    throw new CommandFault('There’s nothing in that store yet, so there’s nothing to move.')
}

async function copyAll(here: Here, from: Store, to: Store): Promise<void> {
  await to.db.transaction().execute(requireEmpty)
  const at = here.now()
  const { seal, opener } = await sealToo(here.config)
  const file = await backUpBefore('move', { store: from, config: here.config, at }, seal)
  const { rows, queued } = await restoreBackup(to, await checkBackup(file, opener), at)
  await requireSameCounts(to, rows)
  const all = Object.values(rows).reduce((sum, count) => sum + count, 0)
  here.say(`Copied ${all} rows of ${Object.keys(rows).length} tables. They are in ${file} too.`)
  if (queued > 0) here.say(`${queued} messages that weren’t sent yet wait in the new store.`)
}

/** What is kept of the move is encrypted as backups are; to read it here, it is so for a key too that ends with this process. */
async function sealToo({ backupRecipients }: Config): Promise<{ seal: Seal | null; opener: Opener | null }> {
  if (backupRecipients.length === 0) return { seal: null, opener: null }
  const { recipient, identity } = await newKeyPair()
  return { seal: { recipients: [...backupRecipients, recipient] }, opener: { identities: [identity] } }
}

async function requireSameCounts({ db }: Store, rows: Record<string, number>): Promise<void> {
  for (const [table, count] of Object.entries(rows)) {
    const { rows: counted } = await sql<{ count: number }>`
      select count(*) as count from ${sql.table(table)}`.execute(db)
    if (counted[0]!.count < count)
      throw new CommandFault(
        `Of "${table}" only ${counted[0]!.count} of ${count} rows arrived. Don’t use the new store.`,
      )
  }
}

/** The key is no part of the store: a new folder needs the file too. */
async function aboutKey(from: Config, to: Config): Promise<string> {
  if (from.secretKey) return 'SECRET_KEY stays as it is.'
  const [old, its] = [keyFile(from.dataDir), keyFile(to.dataDir)]
  if (resolve(old) === resolve(its)) return `The key stays in ${resolve(its)}.`
  if (!existsSync(old)) return `There’s no key in ${resolve(old)}: put the right one into ${resolve(its)}.`
  if (existsSync(its))
    return `There is a key in ${resolve(its)} already. Put the one from ${resolve(old)} there.`
  copyFileSync(old, its, constants.COPYFILE_EXCL)
  return `The key is copied to ${resolve(its)}.`
}
