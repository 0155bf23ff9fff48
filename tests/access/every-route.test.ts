import Fastify from 'fastify'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { GivenRole } from '../../src/db/schema/accounts.ts'
import { FEW_A_MINUTE } from '../../src/http/rate-limits.ts'
import { ROLES } from '../../src/http/roles.ts'
import { type Access, collectRoutes } from '../../src/http/route-table.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, helperBrowser, officeBrowser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let staff: Record<GivenRole, Browser>
let number: string

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  staff = { helper: await helperBrowser(app), office: await officeBrowser(app) }
  number = (await sendRequest(app)).number
})

afterAll(() => app.close())

/** Something that is there, so that a refusal can't be told from a mere not-found. */
const addressOf = (path: string) =>
  path
    .replace(':number', number)
    .replace(':day', '2026-03-03')
    .replace(':id', '1')
    .replace(':finish', 'stone')

const ask = (browser: Browser, method: string, path: string) =>
  method === 'GET' ? browser.get(addressOf(path)) : browser.post(addressOf(path)).type('form').send({})

test('whoever is not signed in is sent to sign in from every route of the staff', async () => {
  const locked = app.routes.filter(({ access }) => ROLES.owner.opens.includes(access))
  expect(locked.length).toBeGreaterThan(10)
  for (const { method, path } of locked) {
    const answer = await ask(app.browser(), method, path)
    expect({ path, status: answer.status }).toEqual({ path, status: 303 })
    expect(answer.headers.location).toMatch(/^\/sign-in/)
    expect(answer.text).not.toContain('Carol')
  }
})

test.each([
  ['helper', ['office', 'owner']],
  ['office', ['owner']],
] as const)('the %s is refused every route of %s, and learns nothing from it', async (role, refused) => {
  const theirs: readonly Access[] = refused
  const routes = app.routes.filter(({ access }) => theirs.includes(access))
  expect(routes.length).toBeGreaterThan(70)
  for (const { method, path } of routes) {
    const answer = await ask(staff[role], method, path)
    expect({ path, status: answer.status }).toEqual({ path, status: 403 })
    expect(answer.text).not.toContain('Carol')
  }
})

test('a token that opens nothing is alike on every route behind a link', async () => {
  const links = app.routes.filter(({ access }) => access === 'link')
  expect(links.length).toBeGreaterThan(3)
  for (const { method, path } of links) {
    const answer = await ask(app.browser(), method, path.replace(':token', 'A'.repeat(43)))
    // Who presses the button there twice is to sign in.
    const byButton = ['/new-password/:token', '/sign-in-link/:token', '/invitation/:token'].includes(path)
    const status = method === 'POST' && byButton ? 303 : 404
    expect({ path, status: answer.status }).toEqual({ path, status })
    expect(answer.headers['cache-control']).toContain('no-store')
    expect(answer.headers['x-robots-tag']).toContain('noindex')
  }
})

test('a post from another site is refused on every route that changes something', async () => {
  const crossSite = ['/ballpark', '/texts/replies', '/offers-off/:id/:token']
  for (const { method, path } of app.routes.filter(route => route.method === 'POST')) {
    const answer = await ask(app.browser().set('origin', 'https://elsewhere.example'), method, path)
    const changes = !crossSite.includes(path)
    expect({ path, refused: answer.status === 403 }).toEqual({ path, refused: changes })
  }
})

test('whoever tries links meets a limit on every page behind one', async () => {
  const limits = {
    '/b/:token': 120,
    '/b/:token/accept': 120,
    '/b/:token/check': 120,
    '/r/:token/call-off': 120,
  }
  for (const [path, most] of Object.entries(limits)) {
    const statuses: number[] = []
    for (let time = 0; time <= most; time++) {
      const url = path.replace(':token', 'A'.repeat(43))
      statuses.push((await app.server.inject({ url, remoteAddress: '203.0.113.77' })).statusCode)
    }
    expect([path, ...new Set(statuses)]).toEqual([path, 404, 429])
    expect(statuses.at(-2)).toBe(404)
  }
})

test('a route that doesn’t say who may use it stops the start, as does a link that may be tried without end', async () => {
  const declare = (config?: object) => {
    const server = Fastify()
    collectRoutes(server)
    server.get('/', { config }, () => '')
  }
  expect(() => declare()).toThrow('GET / does not say who may use it')
  expect(() => declare({ access: 'link' })).toThrow('GET / does not say how often a link may be tried')
  expect(() => declare({ access: 'link', ...FEW_A_MINUTE })).not.toThrow()
  expect(() => declare({ access: 'open' })).not.toThrow()
})
