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

test('200 connections that never finish what they send keep nobody waiting, and are ended', async () => {
  const sockets = Array.from({ length: 200 }, (_, nth) => halfSent(nth % 2 ? HALF_BODY : HALF_HEADERS))
  await until(() => sockets.every(socket => !socket.connecting), { what: 'every connection to be open' })
  const answer = await fetch(service.address)
  expect(answer.status).toBe(200)
  await until(() => sockets.every(socket => socket.closed), {
    within: 60_000,
    what: 'the slow ones to be ended',
  })
})

function halfSent(text: string): Socket {
  const socket = connect(Number(new URL(service.address).port), '127.0.0.1')
  socket.on('error', () => {})
  socket.resume()
  socket.write(text)
  return socket
}
