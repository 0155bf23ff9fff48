import { statSync } from 'node:fs'
import { statfs } from 'node:fs/promises'
import { resolve } from 'node:path'
import { sql } from 'kysely'
import { VERSION } from '../backup/version.ts'
import type { Config } from '../config.ts'
import { LEFT_FOR_LOG } from '../db/room-for-log.ts'
import { isStoresKey } from '../key-check.ts'
import { bytesInWords } from '../lib/bytes.ts'
import { keyFile } from '../secret-key.ts'
import { findBackupTrouble, findStoreBackup } from '../store-backup.ts'
import { type Check, good, type LookedAt, look, wrong } from './check.ts'
import { checkAddress } from './check-address.ts'
import { checkErased } from './check-erased.ts'
import { checkJunk } from './check-junk.ts'
import { checkMessages } from './check-messages.ts'

const LITTLE_ROOM = 1_000_000_000
const NO_ROOM = 200_000_000
/** What two clocks may differ by, in milliseconds. */
const OFF = 30_000
const OLDEST_POSTGRES = 18

/** Everything that can be looked at without leaving the machine and its database. */
export async function checkAll(at: LookedAt): Promise<Check[]> {
  return [
    await checkVersions(at),
    await checkStore(at),
    await checkRoom(at),
    await checkClock(at),
    await checkKey(at),
    checkAddress(at),
    await checkMessages(at),
    await checkJunk(at),
    await checkBackups(at),
    await checkErased(at),
  ]
}

async function checkVersions({ db }: LookedAt): Promise<Check> {
  const { rows } = await sql<{
    version: string
  }>`select current_setting('server_version') as version`.execute(db)
  const { version } = rows[0]!
  const says = `Bedwright ${VERSION}, Node ${process.versions.node}, PostgreSQL ${version}.`
  if (Number.parseInt(version, 10) >= OLDEST_POSTGRES) return good('Versions', says)
  return wrong('Versions', says, `Bedwright is tried with PostgreSQL ${OLDEST_POSTGRES}: update the server.`)
}

async function checkStore({ config, db, kind }: LookedAt): Promise<Check> {
  const { rows } = await sql<{ bytes: number; requests: number }>`
    select pg_database_size(current_database()) as bytes,
      (select count(*) from quote_request) as requests`.execute(db)
  const { bytes, requests } = rows[0]!
  const where =
    kind === 'embedded' ? `the folder ${resolve(config.dataDir)}` : await serverInWords(config, db)
  const counted = `${requests} ${requests === 1 ? 'request' : 'requests'}`
  return good('Data', `${counted}, ${bytesInWords(bytes)} in ${where}.`)
}

async function serverInWords({ databaseHosts }: Config, db: LookedAt['db']): Promise<string> {
  if (databaseHosts.length === 0) return 'PostgreSQL'
  const { rows } = await sql<{ host: string; port: number }>`
    select host(inet_server_addr()) as host, inet_server_port() as port`.execute(db)
  const { host, port } = rows[0]!
  return `PostgreSQL, now by the server at ${host}, port ${port}, of the ${databaseHosts.length + 1} that are set`
}

/** The data folder holds the embedded store, and backups with either. */
async function checkRoom({ config, kind }: LookedAt): Promise<Check> {
  const folder = resolve(config.dataDir)
  const disk = await statfs(folder).catch(() => null)
  if (!disk)
    return look('Disk', `The folder ${folder} can’t be read.`, 'Is DATA_DIR right, and is it this user’s?')
  const free = disk.bavail * disk.bsize
  const says = `${bytesInWords(free)} free where ${folder} is.`
  const todo = 'Make room on that disk, or move old backups away.'
  if (kind === 'embedded' && free < LEFT_FOR_LOG)
    return wrong('Disk', `${says} Nothing new can be saved until there’s more.`, todo)
  if (free < NO_ROOM) return wrong('Disk', says, todo)
  return free < LITTLE_ROOM ? look('Disk', says, todo) : good('Disk', says)
}

async function checkClock({ db, kind, now }: LookedAt): Promise<Check> {
  const before = now()
  const { rows } = await sql<{ there: string; newest: string | null }>`
    select clock_timestamp() as there, (select max(at) from history) as newest`.execute(db)
  const { there, newest } = rows[0]!
  const todo = 'Set this machine’s clock, and have it kept by a time server.'
  if (newest && Temporal.Instant.compare(newest, before.add({ milliseconds: OFF })) > 0)
    return wrong('Clock', `It is ${before}, but something was noted at ${newest}.`, todo)
  const off = Temporal.Instant.from(there).since(before).abs().total('milliseconds')
  if (kind === 'postgres' && off > OFF)
    return wrong('Clock', `This machine’s and the database’s differ by ${Math.round(off / 1000)} s.`, todo)
  return good('Clock', `${before.round('second')}, and nothing was noted later than that.`)
}

async function checkKey({ config, db, secretKey }: LookedAt): Promise<Check> {
  const from = config.secretKey ? 'SECRET_KEY' : resolve(keyFile(config.dataDir))
  if (!secretKey)
    return look('Key', 'There’s no key yet.', 'Start Bedwright once to make one, or set SECRET_KEY.')
  if (!(await isStoresKey(db, secretKey)))
    return wrong(
      'Key',
      `The key in ${from} isn’t the one that the links were made from.`,
      'Put the right key back. If it’s lost, switch to this one with the command "key replace".',
    )
  const file = config.secretKey ? undefined : statSync(keyFile(config.dataDir), { throwIfNoEntry: false })
  if (!config.secretKey && !file)
    return wrong('Key', `The file ${from} is gone.`, 'Put your copy of it back before the next start.')
  if (file && (file.mode & 0o077) !== 0)
    return look('Key', `Other users can read ${from}.`, `Make it yours alone: chmod 600 ${from}`)
  return good('Key', `The one in ${from} is the one that the links were made from.`)
}

async function checkBackups({ config, db, kind, now }: LookedAt): Promise<Check> {
  const count = config.backupRecipients.length
  const sealed =
    count > 0
      ? `They’re encrypted for ${count} ${count === 1 ? 'key' : 'keys'}.`
      : 'They aren’t encrypted: BACKUP_RECIPIENTS isn’t set.'
  if (kind === 'postgres')
    return look(
      'Backups',
      'A PostgreSQL server is backed up by whoever keeps it.',
      `See that it is. The command "backup" works too, any time. ${sealed}`,
    )
  const last = await findStoreBackup(db)
  const trouble = await findBackupTrouble(db, kind, now())
  if (!last && !trouble)
    return look(
      'Backups',
      `No nightly backup has been made yet. ${sealed}`,
      'The first is made tonight. The command "backup" makes one now.',
    )
  const made = last?.made_at
    ? `The last good one is from ${Temporal.Instant.from(last.made_at).round('minute')}, ${bytesInWords(last.bytes!)}.`
    : 'There is none yet.'
  if (trouble)
    return wrong(
      'Backups',
      `${trouble} ${made}`,
      'Is there room on the disk? Make one now with the command "backup".',
    )
  return good('Backups', `${made} Seven nights are kept. ${sealed}`)
}
