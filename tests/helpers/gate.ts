import { once } from 'node:events'
import { type AddressInfo, connect, createServer, type Server, type Socket } from 'node:net'

/** A way to a PostgreSQL server that can be shut, as when the server goes away. */
export interface Gate {
  /** The server's address by way of the gate. */
  url: string
  /** Cuts every connection off, and takes no other until it is opened. */
  shut(): Promise<void>
  open(): Promise<void>
}

/** Opens a gate, on a port of its own, to the server of a database. */
export async function gateTo(databaseUrl: string): Promise<Gate> {
  const there = new URL(databaseUrl)
  const here = new URL(databaseUrl)
  const sockets = new Set<Socket>()
  let server: Server | undefined
  const open = async (): Promise<void> => {
    server = createServer(socket => {
      const on = connect(Number(there.port), there.hostname)
      for (const [one, other] of [
        [socket, on],
        [on, socket],
      ] as const) {
        sockets.add(one)
        one.on('error', () => {})
        one.on('close', () => other.destroy())
        one.pipe(other)
      }
    }).listen(Number(here.port === there.port ? 0 : here.port), '127.0.0.1')
    await once(server, 'listening')
    here.port = String((server.address() as AddressInfo).port)
    here.hostname = '127.0.0.1'
  }
  await open()
  return {
    url: here.href,
    open,
    shut: async () => {
      const closed = once(server!, 'close')
      server!.close()
      for (const socket of sockets) socket.destroy()
      sockets.clear()
      await closed
    },
  }
}
