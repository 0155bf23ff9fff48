import { afterAll, beforeAll, expect, test } from 'vitest'
import { doctor } from '../../src/command/doctor.ts'
import { Arrivals } from '../../src/http/arrivals.ts'
import { checkAddress } from '../../src/operations/check-address.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
})
afterAll(() => app.close())

type How = Parameters<Arrivals['note']>[0]

/** What is said where requests came in these ways, or where that can't be seen. */
function check(
  trustedProxy: string[],
  came: [how: How, peer: string][] | null,
  publicUrl = 'https://x.example',
) {
  const arrivals = came ? new Arrivals(app.deps.now) : undefined
  for (const [how, peer] of came ?? []) arrivals!.note(how, peer)
  return checkAddress({ ...app.deps, config: { ...app.deps.config, publicUrl, trustedProxy }, arrivals })
}

const THROUGH =
  'Requests come through 172.18.0.1, which isn’t trusted, so all visitors count as one (1 in the last hour).'
const LOOK_FIRST = 'if that is your proxy. Anybody can send such a header, so look first.'

test.each([[[]], [['10.9.9.9']]])('a proxy that isn’t trusted is worth a look where %j is', trusted => {
  expect(check(trusted, [['untrusted', '172.18.0.1']])).toEqual({
    what: 'Address',
    is: 'look',
    says: `Homeowners reach it at https://x.example. ${THROUGH}`,
    todo: `Set TRUSTED_PROXY=172.18.0.1 ${LOOK_FIRST}`,
  })
})

test('beside one that passes requests on, another is added', () => {
  const came: [How, string][] = [
    ['passed on', '10.9.9.9'],
    ['untrusted', '172.18.0.1'],
  ]
  expect(check(['10.9.9.9'], came).todo).toBe(`Set TRUSTED_PROXY=10.9.9.9,172.18.0.1 ${LOOK_FIRST}`)
})

test('a visitor on the internet who says to be a proxy is not to be trusted', () => {
  const { says, todo } = check([], [['untrusted', '203.0.113.7']])
  expect(says + todo).not.toContain('203.0.113.7')
})

test('without encryption that is wrong first, and the proxy is told of too', () => {
  const said = check([], [['untrusted', '172.18.0.1']], 'http://x.example')
  expect(said.is).toBe('wrong')
  expect(said.says).toContain(THROUGH)
  expect(said.todo).toContain('TRUSTED_PROXY=172.18.0.1')
})

test('a trusted proxy is good once something came through it, and worth a look if all came another way', () => {
  expect(check(['10.9.9.9'], [])).toMatchObject({ is: 'good', says: expect.stringContaining('yet.') })
  expect(
    check(
      ['10.9.9.9'],
      [
        ['straight', '192.168.0.4'],
        ['passed on', '10.9.9.9'],
      ],
    ),
  ).toMatchObject({ is: 'good', says: expect.stringContaining('Requests come through it.') })
  const said = check(
    ['10.9.9.9'],
    [
      ['straight', '192.168.0.4'],
      ['straight', '192.168.0.4'],
    ],
  )
  expect(said).toMatchObject({ is: 'look', todo: expect.stringContaining('check that it connects from') })
  expect(said.says).toContain('nothing has come through it, but 2 requests have come another way')
})

test('from another process it can’t be seen, and it says where it can', () => {
  for (const trusted of [[], ['10.9.9.9']])
    expect(check(trusted, null).says).toContain('can’t be seen from here: the page “How it’s doing” says so.')
})

test('the page and the command tell what came to the running service', async () => {
  const { owner } = await openBusiness(app)
  await owner.get('/how-is-it-doing').set('x-forwarded-for', '203.0.113.7').expect(200)
  const page = await owner.get('/how-is-it-doing').expect(200)
  expect(page.text).toContain('Set TRUSTED_PROXY=127.0.0.1 if that is your proxy.')
  const at = { ...app.deps, store: app.store, config: { ...app.deps.config, publicUrl: 'https://x.example' } }
  const said: string[] = []
  const all = async () => {
    for await (const piece of doctor.atStore!(at, {})) said.push(String(piece))
  }
  await all().catch(() => {})
  expect(said.join('')).toContain('Set TRUSTED_PROXY=127.0.0.1 if that is your proxy.')
})
