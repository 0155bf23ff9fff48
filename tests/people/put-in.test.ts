import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { leaveVisitOut, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { puttingIn } from './putting-in.ts'

let app: TestApp
let owner: Browser
let at: ReturnType<typeof puttingIn>

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  at = puttingIn(app, owner)
})
afterAll(() => app.close())

test('every page of the owner’s leads to it, and a helper’s doesn’t', async () => {
  for (const path of ['/queue', '/days', '/settings'])
    expect((await owner.get(path)).text).toContain('href="/put-in"')
  const helper = await helperBrowser(app)
  expect((await helper.get('/days')).text).not.toContain('href="/put-in"')
  expect((await helper.get('/put-in')).status).toBe(403)
  expect((await app.browser().get('/put-in')).status).toBe(303)
})

test('six yards told on the phone are in the queue with their range, and the link is ready to be texted', async () => {
  const mails = async () =>
    (
      await app.db
        .selectFrom('outbox')
        .select(eb => eb.fn.countAll<number>().as('all'))
        .executeTakeFirstOrThrow()
    ).all
  const before = await mails()
  const { number, ...row } = await at.isIn({
    name: 'Dora',
    phone: '512 555 0901',
    beds: '6 yards',
    note: 'Same as last year',
  })
  expect([row.name, row.street, row.email, row.put_in_by, row.stage]).toEqual([
    'Dora',
    '',
    '',
    'staff',
    'new',
  ])
  expect(row.told.beds.map(({ shape, sizes }) => [shape, sizes])).toEqual([['volume', { volume: '6 yards' }]])
  // 6 yd³ at the middle of 80 and 100: 540.
  expect(row.likely).toBe('540.00')
  expect(await at.verbsOf(row.id)).toEqual(['put in by staff'])
  expect(await mails()).toBe(before)
  const page = (await owner.get(`/put-in/${number}`)).text
  const words = /href="sms:5125550901\?body=([^"]+)"/.exec(page)![1]!
  expect(decodeURIComponent(words)).toContain(`http://localhost:8080${await at.ownPathOf(number)}`)
  expect(decodeURIComponent(words)).toMatch(/^Hi Dora, this is Fern Beds\./)
  expect((await owner.get('/queue')).text).toContain(`href="/queue/${number}"`)
})

test('beds are told one a line, of one material', async () => {
  const row = await at.isIn({
    name: 'Lines',
    beds: '20 by 5, 3 like this\n2 of 12 x 4\n9 ft across\n300 square feet',
    finish: 'compost',
    postcode: '78701',
  })
  expect(row.told.beds.map(({ shape, count, finish }) => [shape, count, finish])).toEqual([
    ['rectangle', '3', 'compost'],
    ['rectangle', '2', 'compost'],
    ['circle', '1', 'compost'],
    ['area', '1', 'compost'],
  ])
  expect(row.told.postcode).toBe('78701')
  expect(
    row.understood!.beds.map(({ sizes }) =>
      Object.values(sizes)
        .map(({ value }) => value)
        .sort(),
    ),
  ).toEqual([['20', '5'], ['12', '4'], ['9'], ['300']])
})

test('nothing is asked for but a name or a phone number', async () => {
  const byPhone = await at.isIn({ phone: '512 555 0902' })
  expect([byPhone.name, byPhone.told.beds, byPhone.understood, byPhone.low]).toEqual([
    '512 555 0902',
    [],
    null,
    null,
  ])
  const byName = await at.isIn({ name: 'Met at the fence' })
  expect([byName.phone, byName.email, byName.street]).toEqual(['', '', ''])
  expect((await owner.get(`/put-in/${byName.number}`)).text).not.toContain('href="sms:')
})

test.each([
  [{}, 'Write a name or a phone number.'],
  [{ name: 'Odd', phone: 'call me' }, 'phone'],
  [{ name: 'Odd', email: 'odd' }, 'email'],
  [{ name: 'Odd', postcode: '12' }, 'ZIP'],
  [{ name: 'Odd', beds: '20 by 5\nsome' }, '“some”'],
  [{ name: 'Odd', beds: '1\n'.repeat(41) }, '40 beds at most'],
  [{ name: 'Odd', beds: '20 by 5', finish: 'gravel' }, 'Pick a material.'],
  [{ name: 'x'.repeat(121) }, 'too long'],
])('%j is refused beside the field, and kept', async (fields: Record<string, string>, words) => {
  const answer = await at.putIn(fields)
  expect(answer.status).toBe(422)
  expect(answer.text).toContain(words)
  if (fields.beds) expect(answer.text.replaceAll('\r', '')).toContain(fields.beds.trim())
})

test('sent twice it is one request', async () => {
  const fields = { name: 'Twice', beds: '6 yards', submissionKey: randomUUID() }
  const both = await Promise.all([at.putIn(fields), at.putIn(fields)])
  expect(both[0]!.headers.location).toBe(both[1]!.headers.location)
})

test('without beds it goes by a call and a visit to a price, and its own page works all the way', async () => {
  const { id, number } = await at.isIn({
    name: 'No beds yet',
    phone: '512 555 0903',
    street: '5 Rue Court',
    postcode: '78702',
  })
  const own = await at.ownPathOf(number)
  for (const language of ['en', 'es']) {
    const page = await app.browser().get(`${own}?language=${language}`)
    expect(page.status).toBe(200)
    expect(page.text).toContain(
      { en: 'We don’t know your beds yet', es: 'Todavía no conocemos sus jardineras' }[language],
    )
    expect(page.text).not.toContain('range-heading')
  }
  expect((await app.browser().post(`${own}/note`).type('form').send({ note: 'Ring twice' })).status).toBe(303)
  expect((await owner.get(`/queue/${number}`)).text).toContain(`href="/put-in/${number}"`)
  await expect(leaveVisitOut(app.deps, 1, id)).rejects.toThrow('requests.no-beds')
  expect((await owner.get(`/queue/${number}/quote`)).status).toBe(409)
  await setVisit(app.deps, 1, id, app.deps.now())
  const sheet = (await owner.get(`/queue/${number}/measure`)).text
  expect(sheet).toContain('name="beds.0.sizes.length"')
  const measured = {
    measuredBy: 'tape',
    'beds.0.told': '',
    'beds.0.shape': 'rectangle',
    'beds.0.sizes.length': '20',
    'beds.0.sizes.width': '5',
    'beds.0.count': '1',
    'beds.0.planted': 'open',
    'beds.0.lying': 'bare',
    'beds.0.finish': 'shredded-wood',
    'beds.0.depth': '3 in',
  }
  expect((await at.post(`/queue/${number}/measurements`, measured)).headers.location).toBe(`/queue/${number}`)
  expect((await owner.get(`/queue/${number}`)).status).toBe(200)
  expect((await owner.get(`/queue/${number}/quote`)).status).toBe(200)
  expect((await app.browser().get(own)).status).toBe(200)
})

test('beds can be added once, while it is new', async () => {
  const { id, number } = await at.isIn({ name: 'Later' })
  const add = (beds: string) => at.post(`/put-in/${number}/beds`, { beds, finish: 'stone' })
  expect((await add('')).status).toBe(422)
  expect((await add('so so')).text).toContain('so so')
  const both = await Promise.all([add('20 by 5'), add('20 by 5')])
  expect(both.map(({ status }) => status)).toEqual([303, 303])
  const late = await add('21 by 5')
  expect(late.status).toBe(409)
  for (const part of ['has beds already', '21 by 5']) expect(late.text).toContain(part)
  expect((await at.stored(number)).low).not.toBeNull()
  expect(await at.verbsOf(id)).toEqual(['put in by staff', 'beds added by staff'])
  const links = await app.db
    .selectFrom('request_bed')
    .select('bed_id')
    .where('quote_request_id', '=', id)
    .execute()
  expect(links).toHaveLength(1)
})
