import { once } from 'node:events'
import { createServer, type IncomingHttpHeaders } from 'node:http'
import type { AddressInfo } from 'node:net'

/** What a gateway was sent. */
export interface Posted {
  headers: IncomingHttpHeaders
  /** The very bytes, as text. */
  body: string
}

export interface TextGateway {
  address: string
  posted: Posted[]
  /** What it answers from now on; 0 breaks off. */
  answer: { status: number; location?: string }
  stop(): Promise<void>
}

/** A gateway for texts in this process, which keeps what it is sent. */
export async function startTextGateway(): Promise<TextGateway> {
  const server = createServer(async (request, response) => {
    let body = ''
    for await (const part of request.setEncoding('utf8')) body += part
    gateway.posted.push({ headers: request.headers, body })
    const { status, location } = gateway.answer
    if (status === 0) response.destroy()
    else response.writeHead(status, location ? { location } : {}).end('never read')
  })
  await once(server.listen(0, '127.0.0.1'), 'listening')
  const gateway: TextGateway = {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/send`,
    posted: [],
    answer: { status: 204 },
    stop: async () => {
      server.closeAllConnections()
      await new Promise(resolve => server.close(resolve))
    },
  }
  return gateway
}
