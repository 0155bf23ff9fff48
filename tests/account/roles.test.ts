import { afterAll, beforeAll, expect, test } from 'vitest'
import { changeRole } from '../../src/account/change-role.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, HUGO, invitationPath, officeBrowser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const changes = () => app.db.selectFrom('role_change').selectAll().orderBy('id').execute()
const roleOf = async (id: number) =>
  (await app.db.selectFrom('account').select('role').where('id', '=', id).executeTakeFirstOrThrow()).role
const ofRole = async (role: 'owner' | 'office') =>
  (await app.db.selectFrom('account').select('id').where('role', '=', role).executeTakeFirstOrThrow()).id

test('who is invited into the office begins with the queue, is told so, and stays as long as others', async () => {
  const path = await invitationPath(owner, { 'invite.role': 'office' })
  expect((await app.browser().get(path)).text).toContain('Fern Beds invites you into the office.')
  const browser = app.browser()
  const answer = await browser.post(path).type('form').send(HUGO)
  expect([answer.status, answer.headers.location]).toEqual([303, '/queue'])
  expect(answer.headers['set-cookie']).toContainEqual(expect.stringMatching(/^session=.*Max-Age=2592000/))
  const { text } = await browser.get('/queue')
  for (const page of ['/queue', '/days', '/customers', '/outbox', '/put-in'])
    expect(text).toContain(`href="${page}"`)
  expect(text).not.toMatch(/href="\/(rates|settings|how-is-it-doing|accountant)/)
  const refused = await browser.get('/rates')
  expect(refused.status).toBe(403)
  expect(refused.text).toContain('Only the owner can do that.')
  await app.db.deleteFrom('session').where('account_id', '>', 1).execute()
  await app.db
    .updateTable('account')
    .set({ ended_at: app.deps.now().toString() })
    .where('email', '=', HUGO.email)
    .execute()
})

test('another role ends every session of theirs, and stays in the history; a second tap changes nothing', async () => {
  const before = (await changes()).length
  const olga = await officeBrowser(app)
  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .where('name', '=', 'Olga Sedge')
    .where('ended_at', 'is', null)
    .executeTakeFirstOrThrow()
  expect((await olga.get('/queue')).status).toBe(200)
  const make = (role: string) => owner.post(`/settings/staff/${id}/role`).type('form').send({ role })
  for (let tap = 0; tap < 2; tap++) expect((await make('helper')).headers.location).toBe('/settings#staff')
  expect(await roleOf(id)).toBe('helper')
  expect((await olga.get('/queue')).headers.location).toMatch(/^\/sign-in/)
  const rows = (await changes()).slice(before)
  expect(rows.map(({ was, becomes, made_by }) => [was, becomes, made_by])).toEqual([
    ['office', 'helper', await ofRole('owner')],
  ])
  const { text } = await owner.get('/settings')
  expect(text).toContain('Olga Sedge is a helper already.')
  expect(text).toContain('Olga Sedge: from office to helper, by Alice Fern')
  for (const wrong of ['owner', '', 'captain']) expect((await make(wrong)).status).toBe(422)
  // Two at once are one change.
  await Promise.all([make('office'), make('office')])
  expect((await changes()).length).toBe(before + 2)
  await owner.post(`/settings/staff/${id}/remove`)
  expect((await make('helper')).status).toBe(404)
  await expect(app.db.deleteFrom('role_change').execute()).rejects.toThrow('kept as they were made')
})

test('the last owner stays the owner: the database says so', async () => {
  const id = await ofRole('owner')
  const answer = await owner.post(`/settings/staff/${id}/role`).type('form').send({ role: 'office' })
  expect(answer.status).toBe(409)
  expect(answer.text).toContain('Somebody has to be the owner')
  await expect(changeRole(app.deps, id, id, 'helper')).rejects.toThrow('account.keeps-owner')
  for (const change of [{ role: 'office' as const }, { role: 'helper' as const }])
    await expect(app.db.updateTable('account').set(change).where('id', '=', id).execute()).rejects.toThrow(
      'there has to be an owner',
    )
  expect(await roleOf(id)).toBe('owner')
  expect((await owner.get('/settings')).status).toBe(200)
})

test('nobody but the owner changes a role', async () => {
  const olga = await officeBrowser(app)
  const id = await ofRole('office')
  for (const role of ['helper', 'office'])
    expect((await olga.post(`/settings/staff/${id}/role`).type('form').send({ role })).status).toBe(403)
  expect(await roleOf(id)).toBe('office')
  await owner.post(`/settings/staff/${id}/remove`)
})
