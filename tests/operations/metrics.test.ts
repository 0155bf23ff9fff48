import { afterAll, beforeAll, expect, test } from 'vitest'
import { readConfig } from '../../src/config.ts'
import { measure } from '../../src/operations/metrics.ts'
import { serveMetrics } from '../../src/operations/metrics-server.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

const TOKEN = 'a token of the tests alone'
let app: TestApp
let metrics: ReturnType<typeof measure>
let served: Awaited<ReturnType<typeof serveMetrics>>

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  metrics = measure(app.store, app.deps.config, app.deps.now)
  served = await serveMetrics(readConfig({ METRICS_PORT: '0', METRICS_TOKEN: TOKEN }), metrics)
})
afterAll(async () => {
  await served.close()
  await app.close()
})

const ask = (authorization: string, path = '') => fetch(served.address + path, { headers: { authorization } })

test('only whoever has the token is answered, and only where it stands', async () => {
  expect((await ask('')).status).toBe(401)
  expect((await ask(`Bearer ${TOKEN}x`)).status).toBe(401)
  expect((await ask(`Bearer ${TOKEN}`, '/else')).status).toBe(404)
  const answer = await ask(`Bearer ${TOKEN}`)
  expect(answer.status).toBe(200)
  expect(answer.headers.get('content-type')).toContain('text/plain')
})

test('answers are measured by the pattern of their route, and what waits to be sent by how long', async () => {
  metrics.answered('GET', '/b/:token', 200, 0.02)
  await sendRequest(app)
  app.setClock('2026-03-02T15:10:00Z')
  const text = await metrics.text()
  expect(text).toContain('http_request_duration_seconds_count{method="GET",route="/b/:token",status="200"} 1')
  expect(text).toContain(
    'http_request_duration_seconds_bucket{le="0.025",method="GET",route="/b/:token",status="200"} 1',
  )
  expect(text).toMatch(/^bedwright_outbox_messages\{state="by hand"\} [1-9]/m)
  expect(text).toMatch(/^bedwright_outbox_oldest_seconds 600$/m)
  expect(text).toMatch(/^bedwright_last_backup_timestamp_seconds 0$/m)
  expect(text).toMatch(/^nodejs_eventloop_lag_seconds /m)
  const connections = /^bedwright_database_connections\{state="used"\} \d+$/m
  expect(connections.test(text)).toBe(app.kind === 'postgres')
})

test('without a token it listens on this machine alone, and by itself not at all', () => {
  expect(readConfig({}).metrics).toBe(null)
  expect(readConfig({ METRICS_PORT: '9100' }).metrics).toEqual({
    port: 9100,
    host: '127.0.0.1',
    token: undefined,
  })
  expect(() => readConfig({ METRICS_PORT: '9100', METRICS_HOST: '0.0.0.0' })).toThrow('METRICS_TOKEN')
  expect(() => readConfig({ METRICS_PORT: '9100', METRICS_TOKEN: 'short' })).toThrow('METRICS_TOKEN')
})
