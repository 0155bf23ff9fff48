import { once } from 'node:events'
import { chmodSync, mkdirSync, rmSync } from 'node:fs'
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import { json } from 'node:stream/consumers'
import type { Store } from '../db/open.ts'
import type { Deps } from '../deps.ts'
import { allCommands } from './all-commands.ts'
import type { Input } from './command.ts'
import { inOneLine } from './in-one-line.ts'
import { DONE, socketFolder, socketPath } from './socket.ts'

/**
 * Does for the command line what only the process can do that has the embedded store open: listens on a socket in the
 * data folder, for its owner alone. With PostgreSQL it does nothing, as commands connect by themselves. Closing it
 * breaks off what is being done, and waits until the store isn't used any more.
 */
export async function listenForCommands(
  deps: Deps,
  store: Store,
  warn: (line: string) => void,
): Promise<{ close(): Promise<void> }> {
  if (store.kind !== 'embedded') return { close: async () => {} }
  const underWay = new Set<Promise<void>>()
  const server = createServer((request, response) => {
    const answered = answer(deps, store, request, response).catch(() => void response.destroy())
    underWay.add(answered)
    void answered.finally(() => underWay.delete(answered))
  })
  try {
    await listenIn(deps.config.dataDir, server)
  } catch (error) {
    warn(`Commands that need the store have to wait until this is stopped. ${(error as Error).message}`)
    return { close: async () => {} }
  }
  return {
    close: async () => {
      const { promise: closed, resolve } = Promise.withResolvers<void>()
      server.close(() => resolve())
      server.closeAllConnections()
      await Promise.all([closed, ...underWay])
    },
  }
}

async function listenIn(dataDir: string, server: Server): Promise<void> {
  const path = socketPath(dataDir)
  if (!path) throw new Error('The name of DATA_DIR is too long for a socket in it.')
  mkdirSync(socketFolder(dataDir), { recursive: true, mode: 0o700 })
  chmodSync(socketFolder(dataDir), 0o700)
  // Whoever left one behind is gone: this process holds the folder's lock.
  rmSync(path, { force: true })
  server.listen(path)
  await once(server, 'listening')
  chmodSync(path, 0o600)
}

async function answer(deps: Deps, store: Store, request: IncomingMessage, response: ServerResponse) {
  const name = decodeURIComponent(request.url!.slice(1))
  const command = allCommands.find(one => one.name === name && one.atStore)
  if (!command) return void response.writeHead(404).end()
  const gone = new AbortController()
  response.once('close', () => gone.abort())
  const input = (await json(request)) as Input
  response.writeHead(200, { 'content-type': 'application/octet-stream', trailer: 'outcome' })
  const { config, now, secretKey, arrivals } = deps
  try {
    for await (const piece of command.atStore!({ config, now, secretKey, store, arrivals }, input)) {
      gone.signal.throwIfAborted()
      if (!response.write(piece)) await once(response, 'drain', { signal: gone.signal })
    }
    response.addTrailers({ outcome: DONE })
  } catch (error) {
    response.addTrailers({ outcome: encodeURIComponent(inOneLine(error)) })
  }
  response.end()
}
