import { once } from 'node:events'
import { existsSync } from 'node:fs'
import { type IncomingMessage, request } from 'node:http'
import { join, resolve } from 'node:path'
import type { Config } from '../config.ts'
import { FolderInUse } from '../db/lock.ts'
import { findMigrations, isUpToDate, refuseNewer } from '../db/migrate.ts'
import { openStore, type Store } from '../db/open.ts'
import type { Now } from '../lib/dates.ts'
import { findSecretKey } from '../secret-key.ts'
import { type Command, CommandFault, type Input } from './command.ts'
import { othersFolder, requireOwnFolder } from './own-folder.ts'
import { DONE, socketPath } from './socket.ts'

const NOBODY = ['ENOENT', 'ECONNREFUSED']

/**
 * Has a command's `atStore` done by whoever has the store open: the running service when it is an embedded one, or
 * else this process.
 * @throws {CommandFault} with what went wrong in the service
 */
export async function* askStore(
  command: Command,
  config: Config,
  now: Now,
  input: Input,
): AsyncGenerator<Uint8Array> {
  const answer = config.databaseUrl ? null : await askService(command, config.dataDir, input)
  if (answer) return yield* readAnswer(answer)
  const store = await openFor(command, config)
  try {
    const secretKey = findSecretKey(config.secretKey, config.dataDir)
    for await (const piece of command.atStore!({ config, now, secretKey, store }, input))
      yield Buffer.from(piece)
  } finally {
    await store.close()
  }
}

async function askService(command: Command, dataDir: string, input: Input): Promise<IncomingMessage | null> {
  const socket = socketPath(dataDir)
  if (!socket) return null
  const path = `/${encodeURIComponent(command.name)}`
  const asking = request({ socketPath: socket, method: 'POST', path, agent: false })
  asking.end(JSON.stringify(input))
  try {
    const [answer] = await once(asking, 'response')
    return answer
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code && NOBODY.includes(code)) return null
    if (code === 'EACCES') throw new CommandFault(othersFolder(dataDir))
    throw error
  }
}

async function* readAnswer(answer: IncomingMessage): AsyncGenerator<Uint8Array> {
  if (answer.statusCode === 404)
    throw new CommandFault(
      'The running Bedwright is a different version that doesn’t have this command. Restart it.',
    )
  try {
    yield* answer
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ECONNRESET') throw error
  }
  const outcome = answer.trailers.outcome
  if (outcome === DONE) return
  throw new CommandFault(
    outcome ? decodeURIComponent(String(outcome)) : 'The running Bedwright stopped before it was done.',
  )
}

async function openFor(command: Command, config: Config): Promise<Store> {
  if (!config.databaseUrl) requireStore(config.dataDir)
  const store = await openOwn(config)
  try {
    const had = await findMigrations(store.db)
    refuseNewer(had)
    if (!command.takesOlderStore && !isUpToDate(had))
      throw new CommandFault(
        'This version hasn’t been started on that store yet. Start it once, then try again.',
      )
    return store
  } catch (error) {
    await store.close()
    throw error
  }
}

async function openOwn(config: Config): Promise<Store> {
  try {
    return await openStore(config)
  } catch (error) {
    if (!(error instanceof FolderInUse)) throw error
    throw new CommandFault(
      `Another Bedwright is using the folder ${resolve(config.dataDir)} and isn’t answering. Try again once it has started, or stop it first.`,
    )
  }
}

function requireStore(dataDir: string): void {
  if (!existsSync(join(dataDir, 'store')))
    throw new CommandFault(`There’s no store in the folder ${resolve(dataDir)}. Is DATA_DIR right?`)
  requireOwnFolder(dataDir)
}
