import { unzipSync } from 'fflate'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { heldRequest } from '../helpers/maybe-junk.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { holdPast } from '../helpers/photos.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const customerOf = async (id: number) =>
  (
    await app.db
      .selectFrom('quote_request')
      .select('customer_id')
      .where('id', '=', id)
      .executeTakeFirstOrThrow()
  ).customer_id

async function exported(customer: number): Promise<Record<string, string>> {
  const answer = await owner
    .post(`/customers/${customer}/export`)
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = []
      response.on('data', chunk => chunks.push(chunk))
      response.on('end', () => done(null, Buffer.concat(chunks)))
    })
  const files = Object.entries(unzipSync(answer.body))
  return Object.fromEntries(files.map(([name, bytes]) => [name, Buffer.from(bytes).toString()]))
}

const held = async () =>
  (await app.db.selectFrom('maybe_junk').select('number').orderBy('id').execute()).map(({ number }) => number)

test('what is held with the same phone or email is in the zip, and goes with its person, and nothing else does', async () => {
  const who = { name: 'Zephyrine Quill', phone: '(512) 555-0177', email: 'zephyrine@quill.example' }
  const { id } = await sendRequest(app, who)
  const customer = await customerOf(id)
  const photos = [{ token: await holdPast(app), words: 'by the pond' }]
  const byPhone = await heldRequest(app, { phone: '+1 512.555.0177', email: '', note: 'a heron', photos })
  const byEmail = await heldRequest(app, { phone: '', email: 'Zephyrine+x@Quill.example' })
  const said = await heldRequest(app, { phone: '512 555 0177', email: '' }, true)
  const other = await heldRequest(app, { phone: '(512) 555-0178', email: 'dora@quill.example' })
  const nobody = await heldRequest(app, { phone: '', email: '' })
  const files = await exported(customer)
  const { maybe_junk } = JSON.parse(files['person.json']!)
  expect(maybe_junk.map((row: { number: string }) => row.number)).toEqual([
    said.number,
    byEmail.number,
    byPhone.number,
  ])
  expect(files['person.json']).toContain('a heron')
  expect(files['person.json']).not.toContain('dora@quill.example')
  expect(Object.keys(files)).toContain(`photos/${byPhone.number}-held-1.jpg`)
  const page = await owner.get(`/customers/${customer}/erase`)
  expect(page.text).toContain('held as maybe junk with the same phone or email')
  expect((await owner.post(`/customers/${customer}/erase`).type('form').send({ word: 'erase' })).status).toBe(
    303,
  )
  expect(await held()).toEqual([other.number, nobody.number])
  expect(
    await app.db.selectFrom('request_photo').select('id').where('maybe_junk_id', 'is not', null).execute(),
  ).toEqual([])
})

test('nobody who is erased is joined with anybody, from a page that is behind', async () => {
  const { id } = await sendRequest(app, { name: 'Fern One', phone: '(512) 555-0161', email: '' })
  const other = await sendRequest(app, { name: 'Fern Two', phone: '(512) 555-0162', email: '' })
  const [one, two] = [await customerOf(id), await customerOf(other.id)]
  await owner.post(`/customers/${one}/erase`).type('form').send({ word: 'erase' }).expect(303)
  for (const [at, to] of [
    [two, one],
    [one, two],
  ]) {
    const answer = await owner
      .post(`/customers/${at}/same`)
      .type('form')
      .send({ other: to, decision: 'same' })
    expect(answer.status).toBe(409)
    expect(answer.text).toContain('One of these was erased meanwhile')
  }
  const places = await app.db
    .selectFrom('place')
    .select(['id', 'customer_id'])
    .where('customer_id', 'in', [one, two])
    .orderBy('id')
    .execute()
  const answer = await owner
    .post(`/places/${places[1]!.id}/same`)
    .type('form')
    .send({ other: places[0]!.id, decision: 'same' })
  expect([answer.status, answer.text.includes('One of these was erased meanwhile')]).toEqual([409, true])
  const heads = await app.db
    .selectFrom('customer')
    .select(['id', 'head_id'])
    .where('id', 'in', [one, two])
    .execute()
  for (const row of heads) expect(row.head_id).toBe(row.id)
})
