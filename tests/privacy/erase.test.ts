import { unzipSync } from 'fflate'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { insertFile } from '../../src/papers/queries.ts'
import { keepJobCertificate } from '../../src/places/job-certificate.ts'
import { eraseCustomer } from '../../src/privacy/erase.ts'
import { addNote } from '../../src/requests/changed-by-homeowner.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import type { TestApp } from '../helpers/app.ts'
import { testApp } from '../helpers/app.ts'
import { billedRequest, pay } from '../helpers/bills.ts'
import { acceptedRequest, askedRequest, bookedToday, weekRequest } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const WHO = {
  name: 'Zephyrine Quill',
  email: 'zephyrine@quill.example',
  street: '9 Marzipan Crescent',
  note: 'mind the heron',
}

async function customerOf(id: number): Promise<number> {
  const row = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  return row.customer_id
}

const erase = async (id: number, word = 'erase') =>
  owner
    .post(`/customers/${await customerOf(id)}/erase`)
    .type('form')
    .send({ word })

const logged = (customerId: number) =>
  app.db
    .selectFrom('access_log')
    .select(['verb', 'customer_id', 'requests', 'account_id'])
    .where('customer_id', '=', customerId)
    .orderBy('id')
    .execute()

async function exported(id: number): Promise<Record<string, string>> {
  const answer = await owner
    .post(`/customers/${await customerOf(id)}/export`)
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = []
      response.on('data', chunk => chunks.push(chunk))
      response.on('end', () => done(null, Buffer.concat(chunks)))
    })
  expect(answer.status).toBe(200)
  const files = unzipSync(answer.body)
  return Object.fromEntries(
    Object.entries(files).map(([name, bytes]) => [name, Buffer.from(bytes).toString('latin1')]),
  )
}

test('a person is taken out as JSON, photos and papers, and erased by a typed word, once', async () => {
  const { id, number, path, bill } = await billedRequest(app, WHO)
  const size = { width: 4, height: 3, small_width: 4, small_height: 3, bytes: 14 }
  const picture = Buffer.from('a photo')
  await app.db
    .insertInto('request_photo')
    .values({
      quote_request_id: id,
      place: 1,
      words: 'by the pond',
      picture,
      small: picture,
      ...size,
      made_at: app.deps.now().toString(),
      token_hash: null,
    })
    .execute()
  await app.db.transaction().execute(async trx => {
    const saved = { at: app.deps.now(), by: 1 }
    const file_id = await insertFile(trx, { kind: 'application/pdf', bytes: picture }, saved)
    await keepJobCertificate(trx, id, { number: 'T-77', until: null, file_id }, saved)
  })
  const own = (await findLinkPath(app.db, app.deps.secretKey, 'own page', id))!
  const before = await exported(id)
  expect(Object.keys(before)).toEqual([
    'read-me.txt',
    'person.json',
    `photos/${number}-sent-1.jpg`,
    `prices/${number}.pdf`,
    `bills/${bill}.pdf`,
    `certificates/${number}.pdf`,
  ])
  for (const text of Object.values(WHO)) expect(before['person.json']).toContain(text)
  expect(before['person.json']).not.toMatch(/labor_hours|worked_out|token_hash|submission_key/)
  expect(before[`prices/${number}.pdf`]).toMatch(/^%PDF/)

  const owed = await erase(id)
  expect(owed.status).toBe(409)
  expect(owed.text).toContain('Money is owed')
  const { total } = await app.db
    .selectFrom('bill')
    .select('total')
    .where('number', '=', bill)
    .executeTakeFirstOrThrow()
  await pay(app, id, total)

  const page = await owner.get(`/customers/${await customerOf(id)}/erase`).expect(200)
  expect(page.text).toContain('through Dec')
  const unsaid = await erase(id, 'yes')
  expect(unsaid.status).toBe(422)
  expect(unsaid.text).toContain('value="yes"')
  expect((await erase(id, ' Erase ')).status).toBe(303)
  expect((await erase(id)).status).toBe(303)
  const customer_id = await customerOf(id)
  expect(await logged(customer_id)).toEqual([
    { verb: 'exported', customer_id, requests: [number], account_id: 1 },
    { verb: 'erased', customer_id, requests: [number], account_id: 1 },
  ])

  for (const link of [own, path, `${own}/accepted`, `${own}/bills/${bill}`])
    expect([link, (await app.browser().get(link)).status]).toEqual([
      link,
      link === own || link === path ? 410 : 404,
    ])
  expect((await owner.get(`/queue/${number}`)).status).toBe(410)
  expect(
    (await owner.post(`/customers/${customer_id}/quiet`).type('form').send({ quiet: 'yes' })).status,
  ).toBe(410)
  const pages = [
    '/queue?q=Zephyrine',
    '/customers',
    '/outbox',
    '/days?from=2026-03-30',
    '/accountant',
    `/bills/${bill}`,
  ]
  for (const address of [...pages, `/customers/${customer_id}/erase`, '/access-log', '/loads/2026-03-31']) {
    const seen = await owner.get(address)
    expect([address, seen.status]).toEqual([address, 200])
    for (const text of [WHO.note, WHO.email])
      expect(seen.text.includes(text), `${address} ${text}`).toBe(false)
  }
  expect((await owner.get(`/bills/${bill}`)).text).toContain(WHO.name)
  expect((await owner.get(`/bills/${bill}/bill.pdf`)).status).toBe(200)
  const after = await exported(id)
  expect(Object.keys(after)).toEqual([
    'read-me.txt',
    'person.json',
    `bills/${bill}.pdf`,
    `certificates/${number}.pdf`,
  ])
  const { bill: bills, ...rest } = JSON.parse(after['person.json']!)
  for (const text of [...Object.values(WHO), 'by the pond', 'Reyes'])
    expect(JSON.stringify(rest).includes(text), text).toBe(false)
  expect(bills[0].bill_to.name).toBe(WHO.name)
})

test('work ahead stands in the way, and a request that isn’t over is ended without a word', async () => {
  const booked = await bookedToday(app)
  const refused = await erase(booked.id)
  expect(refused.status).toBe(409)
  expect(refused.text).toContain('Work is booked')
  expect(refused.text).toContain(`/queue/${booked.number}`)
  const open = [await sendRequest(app), await acceptedRequest(app)]
  for (const { id } of open) {
    const queued = app.queued.length
    expect((await erase(id)).status).toBe(303)
    expect(app.queued.length).toBe(queued)
    const row = await app.db
      .selectFrom('quote_request')
      .select(['stage', 'step', 'papers_erased_at'])
      .where('id', '=', id)
      .executeTakeFirstOrThrow()
    expect(row).toEqual({ stage: 'called off', step: null, papers_erased_at: expect.any(String) })
  }
})

test.each([
  ['a week that they chose', weekRequest],
  ['a day that they asked for', askedRequest],
])('%s stands in the way: its room is theirs still', async (_what, made) => {
  const { id } = await made(app)
  const refused = await erase(id)
  expect([refused.status, refused.text.includes('Work is booked')]).toEqual([409, true])
})

test('of a customer that is joined of several all is erased, by the page of any', async () => {
  const [one, other] = [await sendRequest(app, WHO), await sendRequest(app, WHO)]
  await app.db
    .updateTable('customer')
    .set({ joined_to: await customerOf(one.id) })
    .where('id', '=', await customerOf(other.id))
    .execute()
  expect((await erase(other.id)).status).toBe(303)
  const names = await app.db
    .selectFrom('customer')
    .select('name')
    .where('head_id', '=', await customerOf(one.id))
    .execute()
  expect(names).toEqual([{ name: '–' }, { name: '–' }])
})

test('two at once erase once, and a note that comes meanwhile is refused or goes with the rest', async () => {
  const { id } = await sendRequest(app, WHO)
  const customerId = await customerOf(id)
  const [one, note, other] = await Promise.allSettled([
    eraseCustomer(app.deps, 1, customerId),
    addNote(app.deps, id, 'the blue gate'),
    eraseCustomer(app.deps, 1, customerId),
  ])
  const done = [one, other].map(of => of.status === 'fulfilled' && of.value.is)
  expect(done.sort()).toEqual(['before', 'erased'])
  if (note.status === 'rejected') expect(note.reason).toMatchObject({ status: 410 })
  const details = await app.db
    .selectFrom('history')
    .select('detail')
    .where('quote_request_id', '=', id)
    .execute()
  expect(JSON.stringify(details)).not.toContain('gate')
  expect(await logged(customerId)).toHaveLength(1)
  await expect(addNote(app.deps, id, 'the blue gate')).rejects.toMatchObject({ status: 410 })
})

test('nobody but the owner takes out or erases', async () => {
  const { id } = await sendRequest(app)
  const path = `/customers/${await customerOf(id)}`
  for (const verb of ['export', 'erase']) {
    const answer = await app.browser().post(`${path}/${verb}`).type('form').send({ word: 'erase' })
    expect(answer.headers.location).toContain('/sign-in')
  }
})
