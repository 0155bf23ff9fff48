import { afterAll, beforeAll, expect, test } from 'vitest'
import { leaveVisitOut } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { confirmQuote } from '../helpers/quotes.ts'
import { chargeTax, linesOf, plain, sendThreeYards } from '../quotes/quoting.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  // Shredded wood at 80 to 120: 100 in the middle.
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
  await chargeTax(app)
})
afterAll(() => app.close())

const keep = (number: string, fields: Record<string, string>, file?: Buffer) => {
  const form = owner.post(`/queue/${number}/certificate`)
  for (const [name, value] of Object.entries(fields)) form.field(name, value)
  return file ? form.attach('certificate', file, 'certificate.pdf') : form
}

const exemptOn = async (number: string) =>
  /name="exempt"[^>]*value="([^"]*)"/.exec((await owner.get(`/queue/${number}/quote`)).text)![1]

test('a certificate for one job exempts that one, with a copy, until its last day', async () => {
  const { id, number } = await sendThreeYards(app)
  await leaveVisitOut(app.deps, 1, id)
  const pdf = Buffer.from('%PDF-1.7 a certificate')
  await keep(number, { exemptNumber: 'TX-77', exemptUntil: '2026-03-02' }, pdf).expect(303)
  // Saved again without a file, the copy stays.
  await keep(number, { exemptNumber: 'TX-77', exemptUntil: '2026-03-02' }).expect(303)
  const copy = await owner.get(`/queue/${number}/certificate/file`).buffer(true).expect(200)
  expect([copy.headers['content-type'], copy.headers['cache-control']]).toEqual([
    'application/pdf',
    'no-store',
  ])
  expect((await owner.get(`/queue/${number}`)).text).toContain(
    'TX-77, for this job, good through Mar 2, 2026',
  )
  expect(await exemptOn(number)).toBe('TX-77')
  const other = await sendThreeYards(app)
  await leaveVisitOut(app.deps, 1, other.id)
  expect(await exemptOn(other.number)).toBe('')
  app.setClock('2026-03-03T15:00:00Z')
  expect(await exemptOn(number)).toBe('')
  const late = await confirmQuote(owner, number, { ...plain, exempt: 'TX-77' })
  expect(late.status).toBe(422)
  expect(late.text).toContain('That certificate has expired.')
  app.setClock('2026-03-02T15:00:00Z')
  await confirmQuote(owner, number, { ...plain, exempt: 'TX-77' })
  expect(await linesOf(app, id)).toEqual(['finish 300.00', '300.00'])
})

test('it is taken away with its copy, and refused without a number or with another kind of file', async () => {
  const { number } = await sendThreeYards(app)
  await keep(number, { exemptNumber: 'TX-78' }, Buffer.from('%PDF-1.7')).expect(303)
  const files = async () => (await app.db.selectFrom('kept_file').select('id').execute()).length
  const before = await files()
  const empty = await keep(number, { exemptNumber: '', exemptUntil: '2026-04-01' }).expect(422)
  expect(empty.text).toContain('Give the certificate’s number too.')
  const wrong = await keep(number, { exemptNumber: 'TX-78' }, Buffer.from('MZ')).expect(422)
  expect(wrong.text).toContain('value="TX-78"')
  await keep(number, { exemptNumber: '' }).expect(303)
  expect(await files()).toBe(before - 1)
  await owner.get(`/queue/${number}/certificate/file`).expect(404)
})

test('it is the owner’s alone', async () => {
  const { number } = await sendThreeYards(app)
  const helper = await helperBrowser(app)
  for (const path of ['certificate', 'certificate/file'])
    await expectOwnerOnly(app, helper, 'get', `/queue/${number}/${path}`)
})
