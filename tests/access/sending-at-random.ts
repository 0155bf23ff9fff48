import { once } from 'node:events'
import { connect } from 'node:net'
import type { TestApp } from '../helpers/app.ts'
import type { Try } from './tries.ts'

/** Nothing that is asked may take longer. */
const PATIENCE = 30_000
let asked = 0

/** Sends it to the service within this process, from an address of its own. Gives the status, or what went wrong instead. */
export async function sendTry(app: TestApp, cookie: string, { method, address, headers, body }: Try) {
  asked += 1
  const sending = app.server.inject({
    method: method as 'GET',
    url: address,
    remoteAddress: `198.18.${(asked >> 8) & 255}.${asked & 255}`,
    headers: { origin: app.deps.config.publicUrl, accept: 'text/html', cookie, ...headers },
    ...(body !== undefined && { payload: body }),
  })
  const answer = await Promise.race([sending, late()])
  return answer === 'late'
    ? { status: 'no answer' as const, page: '' }
    : { status: answer.statusCode, page: answer.body }
}

/** Sends it as bytes over a connection of its own, whatever they are; the status, or 'closed'. */
export async function sendRaw(app: TestApp, cookie: string, { method, address, headers, body = '' }: Try) {
  const bytes = Buffer.from(body)
  const all = {
    host: 'localhost',
    connection: 'close',
    origin: app.deps.config.publicUrl,
    cookie,
    ...headers,
  }
  const lines = Object.entries({ ...all, 'content-length': String(bytes.length) })
  const head = [`${method} ${address} HTTP/1.1`, ...lines.map(([name, value]) => `${name}: ${value}`)]
  const socket = connect(Number(new URL(app.base).port), '127.0.0.1')
  let answer = ''
  socket
    .setEncoding('latin1')
    .on('data', (piece: string) => (answer += piece))
    .on('error', () => {})
  socket.write(Buffer.concat([Buffer.from(`${head.join('\r\n')}\r\n\r\n`, 'latin1'), bytes]))
  const closed = once(socket, 'close').then(() => 'closed' as const)
  const how = await Promise.race([closed, late()])
  socket.destroy()
  if (how === 'late') return { status: 'no answer' as const, page: '' }
  const status = /^HTTP\/1\.1 (\d{3})/.exec(answer)?.[1]
  return { status: status ? Number(status) : ('closed' as const), page: '' }
}

function late(): Promise<'late'> {
  const { promise, resolve } = Promise.withResolvers<'late'>()
  setTimeout(resolve, PATIENCE, 'late').unref()
  return promise
}
