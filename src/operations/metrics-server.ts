import { once } from 'node:events'
import { createServer } from 'node:http'
import type { Config } from '../config.ts'
import { sameSecret } from '../lib/tokens.ts'
import type { Metrics } from './metrics.ts'

/** Answers `GET /metrics` at an address of its own, to whoever has the token where one is set. Gives how to end it. */
export async function serveMetrics(
  { metrics: settings }: Config,
  metrics: Metrics,
): Promise<{ address: string; close(): Promise<void> }> {
  const { port, host, token } = settings!
  const server = createServer((request, response) => {
    const refuse = (status: number) => void response.writeHead(status, { 'content-type': 'text/plain' }).end()
    if (request.method !== 'GET' || request.url !== '/metrics') return refuse(404)
    if (token && !sameSecret(request.headers.authorization ?? '', `Bearer ${token}`)) return refuse(401)
    metrics.text().then(
      text =>
        void response.writeHead(200, { 'content-type': metrics.type, 'cache-control': 'no-store' }).end(text),
      () => refuse(503),
    )
  })
  server.requestTimeout = 10_000
  server.listen(port, host)
  await once(server, 'listening')
  const bound = server.address() as { port: number }
  return {
    address: `http://${host.includes(':') ? `[${host}]` : host}:${bound.port}/metrics`,
    close: async () => {
      const { promise: closed, resolve } = Promise.withResolvers<void>()
      server.close(() => resolve())
      server.closeAllConnections()
      await closed
    },
  }
}
