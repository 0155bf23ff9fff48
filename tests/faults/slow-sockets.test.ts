import { connect, type Socket } from 'node:net'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { startService } from '../helpers/service.ts'
import { until } from '../helpers/until.ts'

const HALF_HEADERS = 'GET / HTTP/1.1\r\nHost: localhost\r\n'
const HALF_BODY =
  'POST /requests HTTP/1.1\r\nHost: localhost\r\nOrigin: http://localhost\r\n' +
  'Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 1000\r\n\r\nname=C'

let service: Awaited<ReturnType<typeof startService>>
beforeAll(async () => {
  service = await startService()
})
afterAll(() => service.close())

test('200 connections that never finish what they send keep nobody waiting, and are refused and ended', async () => {
  const heard: string[] = []
  const sockets = Array.from({ length: 200 }, (_, nth) =>
    halfSent(nth % 2 ? HALF_BODY : HALF_HEADERS, answer => heard.push(answer)),
  )
  await until(() => sockets.every(socket => !socket.connecting), { what: 'every connection to be open' })
  const answer = await fetch(service.address)
  expect(answer.status).toBe(200)
  await until(() => sockets.every(socket => socket.closed), {
    within: 60_000,
    what: 'the slow ones to be ended',
  })
  // Many from one address are also more than a few a minute.
  const statuses = new Set(heard.map(line => line.slice(9, 12)))
  expect([...statuses].sort()).toEqual(['408', '429'])
})

function halfSent(text: string, hear: (statusLine: string) => void): Socket {
  const socket = connect(Number(new URL(service.address).port), '127.0.0.1')
  socket.on('error', () => {})
  socket.once('data', data => hear(data.toString().split('\r\n')[0]!))
  socket.resume()
  socket.write(text)
  return socket
}
