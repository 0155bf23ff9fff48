import Fastify from 'fastify'
import { expect, test } from 'vitest'
import { Arrivals, noteArrivals } from '../../src/http/arrivals.ts'

const START = '2026-03-02T15:00:00Z'
const CLIENT = { 'x-forwarded-for': '203.0.113.7' }
const SCHEME = { 'x-forwarded-proto': 'https' }

/** A server that trusts these, and what its log and its arrivals say. */
function serverWith(trusted: string[] = []) {
  const clock = { at: Temporal.Instant.from(START) }
  const arrivals = new Arrivals(() => clock.at)
  const warned: string[] = []
  const stream = { write: (line: string) => void warned.push(JSON.parse(line).msg) }
  const server = Fastify({
    logger: { level: 'warn', stream },
    trustProxy: trusted.length > 0 ? trusted : false,
  })
  noteArrivals(server, arrivals, trusted)
  for (const path of ['/', '/livez', '/readyz', '/healthz']) server.get(path, async () => '')
  const get = async (remoteAddress: string, headers: Record<string, string> = {}, url = '/') =>
    void (await server.inject({ url, remoteAddress, headers }))
  const pass = (minutes: number) => {
    clock.at = clock.at.add({ minutes })
  }
  return { get, pass, warned, arrived: () => arrivals.arrived() }
}

test.each([
  ['172.18.0.1', CLIENT, '172.18.0.1'],
  ['172.18.0.1', SCHEME, '172.18.0.1'],
  ['::ffff:172.18.0.1', CLIENT, '172.18.0.1'],
  ['127.0.0.1', CLIENT, '127.0.0.1'],
  ['::1', CLIENT, '::1'],
  ['fd12::9', CLIENT, 'fd12::9'],
])('a proxy at %s that sends %j and isn’t trusted is noted, and warned of', async (peer, headers, noted) => {
  for (const trusted of [[], ['10.9.9.9']]) {
    const { get, arrived, warned } = serverWith(trusted)
    await get(peer, headers)
    expect(arrived()).toEqual({ passedOn: 0, straight: 1, untrusted: { peer: noted, count: 1 } })
    expect(warned).toEqual([
      `Requests come through ${noted}, which isn't trusted, so all visitors count as one. If that is your proxy, set TRUSTED_PROXY=${noted}. Anybody can send such a header, so look first.`,
    ])
  }
})

test.each(['8.8.8.8', '172.32.0.1', '11.0.0.1', '2001:db8::1', '::ffff:8.8.8.8'])(
  'a visitor from %s on the internet who sends the header is no proxy',
  async peer => {
    const { get, arrived, warned } = serverWith()
    await get(peer, { ...CLIENT, ...SCHEME })
    expect(arrived()).toEqual({ passedOn: 0, straight: 1, untrusted: null })
    expect(warned).toEqual([])
  },
)

test('what a trusted proxy passes on is as it should be, whichever header it sends', async () => {
  const { get, arrived, warned } = serverWith(['10.0.0.0/8', '::1'])
  await get('10.1.2.3', CLIENT)
  await get('10.1.2.3', SCHEME)
  await get('::1', { ...CLIENT, ...SCHEME })
  await get('::ffff:10.1.2.3', CLIENT)
  await get('192.168.0.4')
  expect(arrived()).toEqual({ passedOn: 4, straight: 1, untrusted: null })
  expect(warned).toEqual([])
})

test('a trusted proxy that passes requests on stays trusted in what is to be set', async () => {
  const { get, warned } = serverWith(['10.9.9.9'])
  await get('10.9.9.9', CLIENT)
  await get('172.18.0.1', CLIENT)
  expect(warned).toEqual([expect.stringContaining('set TRUSTED_PROXY=10.9.9.9,172.18.0.1.')])
})

test('whoever asks whether the service lives is no visitor', async () => {
  const { get, arrived } = serverWith(['10.9.9.9'])
  for (const url of ['/livez', '/readyz', '/healthz']) await get('127.0.0.1', {}, url)
  await get('127.0.0.1', CLIENT, '/livez')
  expect(arrived()).toEqual({ passedOn: 0, straight: 0, untrusted: null })
})

test('the last peer is kept, and how many came through it in the last hour; one warning an hour', async () => {
  const { get, pass, arrived, warned } = serverWith()
  await get('172.18.0.1', CLIENT)
  pass(30)
  await get('172.18.0.1', CLIENT)
  await get('172.18.0.1', CLIENT)
  expect(arrived().untrusted).toEqual({ peer: '172.18.0.1', count: 3 })
  pass(30)
  expect(arrived().untrusted).toEqual({ peer: '172.18.0.1', count: 2 })
  await get('172.18.0.2', CLIENT)
  expect(arrived().untrusted).toEqual({ peer: '172.18.0.2', count: 1 })
  expect(warned).toHaveLength(2)
  pass(59)
  await get('172.18.0.2', CLIENT)
  expect(arrived().untrusted).toEqual({ peer: '172.18.0.2', count: 2 })
  expect(warned).toHaveLength(2)
  pass(60)
  expect(arrived().untrusted).toBe(null)
  await get('172.18.0.2', CLIENT)
  expect(warned).toHaveLength(3)
})
