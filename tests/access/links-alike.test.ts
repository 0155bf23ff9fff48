import { afterAll, beforeAll, expect, onTestFinished, test, vi } from 'vitest'
import { invite, requireInvitation } from '../../src/account/invitations.ts'
import { offerPasswordReset } from '../../src/account/password-reset.ts'
import { OneConnection } from '../../src/db/postgres-pool.ts'
import { PreparedStatements } from '../../src/db/prepared-statements.ts'
import { endFeed, findFeedPath, makeFeed } from '../../src/queue/feed.ts'
import { findLinkPath, type LinkPurpose } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, quotedRequest } from '../helpers/bookings.ts'
import { signInLinkPath } from '../helpers/mailed-links.ts'
import { openBusiness } from '../helpers/people.ts'
import { holdPast } from '../helpers/photos.ts'

const START = '2026-03-02T15:00:00Z'
const UNKNOWN = 'A'.repeat(43)
let app: TestApp
let statements: string[] = []

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

/** Has every statement noted that the store is asked, on either store. */
function noteStatements() {
  for (const { prototype } of [PreparedStatements, OneConnection] as { prototype: { run: Run } }[]) {
    const { run } = prototype
    const noted = vi.spyOn(prototype, 'run').mockImplementation(function (this: unknown, text, values) {
      statements.push(text)
      return run.call(this, text, values)
    })
    onTestFinished(() => noted.mockRestore())
  }
}
type Run = (text: string, values?: readonly unknown[]) => Promise<unknown>

/** Tokens that opened something once, by the beginning of their addresses. */
async function endedTokens(): Promise<Record<string, string[]>> {
  const { db, deps } = app
  const tokenOf = (path: string) => path.split('/').at(-1)!
  const ofRequest = async (purpose: LinkPurpose, ended: { revoked_at: string } | { ends_at: string }) => {
    const { id } = await quotedRequest(app)
    const path = await findLinkPath(db, deps.secretKey, purpose, id)
    await db.updateTable('link').set(ended).where('quote_request_id', '=', id).execute()
    return tokenOf(path!)
  }
  const both = async (purpose: LinkPurpose) => [
    await ofRequest(purpose, { ends_at: START }),
    await ofRequest(purpose, { revoked_at: START }),
  ]
  const { id: owner } = await db.selectFrom('account').select('id').executeTakeFirstOrThrow()
  const { token: reset } = (await offerPasswordReset(db, deps.now()))!
  const signIn = tokenOf(await signInLinkPath(app, owner))
  const invited = await invite(deps, owner, { name: 'Ida Fern', email: '', role: 'office', language: 'en' })
  const invitation = tokenOf((await requireInvitation(deps, invited)).address)
  for (const table of ['password_reset', 'sign_in_link', 'invitation'] as const)
    await db.updateTable(table).set({ ends_at: START }).execute()
  const held = await holdPast(app)
  await db.updateTable('request_photo').set({ made_at: '2026-03-01T15:00:00Z' }).execute()
  await makeFeed(deps, owner)
  const feed = tokenOf((await findFeedPath(deps, owner))!)
  await endFeed(deps, owner)
  return {
    '/r/': await both('own page'),
    '/b/': await both('booking'),
    '/p/': await both('reading'),
    '/c/': await both('email address'),
    '/new-password/': [reset],
    '/sign-in-link/': [signIn],
    '/invitation/': [invitation],
    '/calendar/': [feed],
    '/request/photos/': [held],
  }
}

/**
 * What is asked of the store, and the answer; but for whether rates have changed, which is asked once in a second, whoever
 * comes, and for what a new connection begins with.
 */
async function workOf(method: string, path: string, token: string) {
  statements = []
  const sent = { method: method as 'GET', url: path.replace(':token', token).replaceAll(/:\w+/g, '1') }
  const headers = { origin: 'http://localhost:8080', 'content-type': 'application/x-www-form-urlencoded' }
  const payload = new URLSearchParams(acceptForm({ reason: 'other' }) as Record<string, string>).toString()
  const { statusCode: status } = await app.server.inject({
    ...sent,
    ...(method === 'POST' ? { headers, payload } : {}),
  })
  return {
    status,
    statements: statements.filter(text => !/standing_number|set statement_timeout/.test(text)),
  }
}

test('a link that has ended, one that was turned off and one that never was cost the store the same, statement by statement', async () => {
  const ended = await endedTokens()
  noteStatements()
  const tried = new Set<string>()
  const told: string[] = []
  for (const { method, path } of app.routes.filter(({ access }) => access === 'link')) {
    const beginning = Object.keys(ended).find(one => path.startsWith(`${one}:token`))
    if (!beginning) continue
    tried.add(beginning)
    const unknown = await workOf(method, path, UNKNOWN)
    for (const token of ended[beginning]!) {
      const once = await workOf(method, path, token)
      if (once.status === 410) told.push(`${method} ${path}`)
      else expect({ method, path, ...once }).toEqual({ method, path, ...unknown })
    }
  }
  expect([...tried].sort()).toEqual(Object.keys(ended).sort())
  // Whoever asks for the page of a link that they were once given, or for its paper, is told that it has ended.
  const pages = ['/b/:token', '/b/:token/price.pdf', '/p/:token', '/p/:token/price.pdf', '/r/:token']
  // And with that it is over: nothing goes on behind the answer.
  expect(app.log.filter(line => line.includes('"level":50'))).toEqual([])
  expect(told.sort()).toEqual(pages.flatMap(page => [`GET ${page}`, `GET ${page}`]))
})
