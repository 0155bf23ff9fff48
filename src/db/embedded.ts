import fs from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { PGlite } from '@electric-sql/pglite'
import { pg_trgm } from '@electric-sql/pglite/contrib/pg_trgm'
import { NodeFS } from '@electric-sql/pglite/nodefs'
import { syncFolder } from '../lib/sync-folder.ts'
import { bind, parsers } from './parsers.ts'
import { type FileSystem, isFull, leaveRoomForLog } from './room-for-log.ts'

/** The one PGlite whose inner hook for fsync is known to work, and whose folders can be opened. */
export const PGLITE_VERSION = '0.5.16'
const POSTGRES_MAJOR = '18'
const MADE_BY = 'made-by'
/** What a migration may ask for by `create extension`; the server has it among its own. */
const extensions = { pg_trgm }

/** The folder or the installed package can't be used; the message is one plain line that says what to do. */
export class StoreUnusable extends Error {
  override name = 'StoreUnusable'
}

/** Opens the embedded store in a folder, making it when there is none; a commit has reached the disk when it returns. */
export async function openEmbedded(folder: string): Promise<PGlite> {
  requireKnownPglite()
  requireRoom(folder)
  if (!fs.existsSync(folder)) await makeStore(folder)
  requireOwnFolder(folder)
  return open(folder)
}

/** Opens a store that lives in memory, empty or from a `dumpDataDir` blob; for tests. */
export async function openInMemory(from?: Blob): Promise<PGlite> {
  return prepare(
    await PGlite.create({ dataDir: 'memory://', extensions, ...(from ? { loadDataDir: from } : {}) }),
  )
}

async function open(folder: string): Promise<PGlite> {
  const startParams = PGlite.defaultStartParams.filter(param => param !== '-F')
  return prepare(
    await PGlite.create({
      fs: new SyncedFolder(folder),
      extensions,
      startParams: [...startParams, '-c', 'wal_sync_method=fsync'],
    }),
  )
}

// PGlite puts its own array readers in place while it starts, so ours go in afterwards.
function prepare(pglite: PGlite): PGlite {
  Object.assign(pglite.parsers, parsers)
  pglite.serializers = new Proxy({}, { get: () => bind })
  return pglite
}

// Made aside and renamed, so that a kill or a full disk in the middle leaves nothing half made.
async function makeStore(folder: string): Promise<void> {
  const aside = `${folder}.new`
  fs.rmSync(aside, { recursive: true, force: true })
  fs.mkdirSync(aside, { recursive: true, mode: 0o700 })
  const pglite = await open(aside)
  await pglite.close()
  fs.writeFileSync(join(aside, MADE_BY), `${PGLITE_VERSION}\n`, { flush: true })
  syncFolder(aside)
  fs.renameSync(aside, folder)
  syncFolder(dirname(folder))
}

function requireKnownPglite(): void {
  const main = createRequire(import.meta.url).resolve('@electric-sql/pglite')
  const found = JSON.parse(fs.readFileSync(join(dirname(main), '..', 'package.json'), 'utf8')).version
  if (found === PGLITE_VERSION) return
  throw new StoreUnusable(
    `Bedwright needs @electric-sql/pglite ${PGLITE_VERSION} exactly, but ${found} is installed: run npm ci.`,
  )
}

// Opened on a full disk it may never be done: first of all PostgreSQL makes good what a kill left behind.
function requireRoom(folder: string): void {
  const parent = dirname(folder)
  if (!isFull(parent)) return
  throw new StoreUnusable(
    `The disk with the folder ${parent} is full. Make room on it, 100 MB at least, and start again: nothing is lost.`,
  )
}

function requireOwnFolder(folder: string): void {
  const major = firstLine(join(folder, 'PG_VERSION'))
  if (major !== POSTGRES_MAJOR) {
    throw new StoreUnusable(
      major === undefined
        ? `The folder ${folder} isn't a Bedwright store: move it away, or put back a backup.`
        : `The folder ${folder} was made by PostgreSQL ${major}, and this Bedwright opens only ${POSTGRES_MAJOR}: start the Bedwright that made it, back up, and restore here.`,
    )
  }
  const madeBy = firstLine(join(folder, MADE_BY))
  if (madeBy === PGLITE_VERSION) return
  throw new StoreUnusable(
    `The folder ${folder} was made by PGlite ${madeBy ?? '(unknown)'}, and this Bedwright opens only ${PGLITE_VERSION}: start the Bedwright that made it, back up, and restore here.`,
  )
}

function firstLine(file: string): string | undefined {
  return fs.existsSync(file) ? fs.readFileSync(file, 'utf8').split('\n', 1)[0] : undefined
}

/**
 * PGlite's folder with fsync switched on: its own never calls it (electric-sql/pglite issue 1107), so an
 * acknowledged commit could be lost with the power. `NODEFS` is an inner part: hence the exact version above.
 */
class SyncedFolder extends NodeFS {
  readonly #folder: string

  constructor(folder: string) {
    super(folder)
    this.#folder = folder
  }

  override async init(...[pglite, options]: Parameters<NodeFS['init']>) {
    const { emscriptenOpts } = await super.init(pglite, options)
    const leaveRoom = (module: unknown) =>
      leaveRoomForLog(module as FileSystem, this.#folder, () => endForWantOfRoom(this.#folder))
    const preRun = [...[emscriptenOpts.preRun ?? []].flat(), syncEveryCommit, leaveRoom]
    return { emscriptenOpts: { ...emscriptenOpts, preRun } }
  }
}

// Nothing acknowledged is lost: it is in the log, which the next start reads.
function endForWantOfRoom(folder: string): never {
  console.error(
    `The disk with the folder ${dirname(folder)} is full, and nothing more can be saved. Make room on it and start again: nothing is lost.`,
  )
  process.exit(1)
}

function syncEveryCommit(module: unknown): void {
  const { NODEFS } = module as { NODEFS: { stream_ops: { fsync?: (stream: { nfd?: number }) => number } } }
  NODEFS.stream_ops.fsync = stream => {
    if (stream.nfd !== undefined) fs.fsyncSync(stream.nfd)
    return 0
  }
}
