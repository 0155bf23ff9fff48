import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { formsOf } from '../access/forms.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, type Browser, openBusiness } from '../helpers/people.ts'
import { measured, photo, sendOne, sendWith } from '../helpers/photos.ts'
import { BEDS, CAROL } from '../helpers/request-form.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
})
afterAll(() => app.close())

/** Has the store refuse new rows of a table, with a code of PostgreSQL's, until the test ends or `again` is called. */
async function refusing(table: string, code: string) {
  await app.store.executeSql(`
    create function refuse() returns trigger language plpgsql as $$
      begin raise exception 'refused' using errcode = '${code}'; end $$;
    create trigger refuses before insert on ${table} for each row execute function refuse()`)
  const again = () => app.store.executeSql('drop function if exists refuse() cascade')
  onTestFinished(async () => void (await again()))
  return again
}

const sent = {
  ...BEDS,
  ...CAROL,
  name: 'Ann "Quill" Roe',
  note: 'Behind <the> shed',
}
const post = (form: Record<string, string | string[]>, path = '/requests') =>
  app.browser().post(path).type('form').send(form)

test('with the disk full what was typed comes back, to be sent again as it is once there is room', async () => {
  const again = await refusing('quote_request', '53100')
  const full = await post({ ...sent, submissionKey: randomUUID() })
  expect(full.status).toBe(503)
  expect(Number(full.headers['retry-after'])).toBeGreaterThan(0)
  expect(full.text).toContain('We’re out of room to save anything right now.')
  const [form] = formsOf(full.text, '/requests').filter(({ method }) => method === 'POST')
  const typed = Object.fromEntries(form!.controls.map(({ name, value }) => [name, value]))
  expect([form!.address, typed]).toEqual([
    '/requests',
    expect.objectContaining({ name: sent.name, note: sent.note }),
  ])
  // Reading goes on.
  for (const path of ['/', '/queue']) expect((await owner.get(path)).status).toBe(200)

  await again()
  expect((await post(typed)).status).toBe(303)
  const kept = await app.db.selectFrom('quote_request').select('note').where('note', '=', sent.note).execute()
  expect(kept).toHaveLength(1)
})

test('a photo that has no room leaves nothing behind, and what was typed beside it comes back', async () => {
  const again = await refusing('request_photo', '53100')
  const fields = measured({ note: 'Under the <oak>' })
  const full = await sendWith(app.browser(), fields, { 'photos.0.file': await photo() })
  expect(full.status).toBe(503)
  expect(full.text).toContain('photos have to be chosen again')
  expect(full.text).toContain('name="note" value="Under the &lt;oak&gt;"')
  const rows = async () => [
    await app.db.selectFrom('request_photo').select('id').execute(),
    await app.db.selectFrom('quote_request').select('id').where('note', '=', 'Under the <oak>').execute(),
  ]
  expect(await rows()).toEqual([[], []])
  const one = await sendOne(app.browser(), await photo())
  expect([one.status, one.body.errors[0].message]).toEqual([
    503,
    expect.stringContaining('We’re out of room'),
  ])

  await again()
  expect((await sendWith(app.browser(), fields, { 'photos.0.file': await photo() })).status).toBe(303)
  expect((await rows()).map(({ length }) => length)).toEqual([1, 1])
})

test('any other fault of ours hands it back too, in the language it was sent in', async () => {
  await refusing('quote_request', 'XX000')
  const fault = await post({ ...sent, submissionKey: randomUUID() }).set('accept-language', 'es')
  expect(fault.status).toBe(500)
  expect(fault.text).toContain('Lo que escribió no se perdió.')
  expect(fault.text).toContain('value="Behind &lt;the&gt; shed"')
})

test('a form with a password in it isn’t handed back', async () => {
  await refusing('session', '53100')
  const { email, password } = ALICE
  const fault = await post({ email, password }, '/sign-in')
  expect(fault.status).toBe(503)
  expect(fault.text).not.toContain(password)
  expect(fault.text).not.toContain('Send it again')
})
