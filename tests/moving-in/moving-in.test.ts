import { afterAll, beforeAll, expect, test } from 'vitest'
import { takeIn } from '../../src/moving-in/moving-in.ts'
import { decideCustomers, takeBack } from '../../src/people/same.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'
import { puttingIn } from '../people/putting-in.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const HEADER = 'Name,Phone,Email,Address,City,Zip,Beds,Material'

async function upload(text: string | Buffer, name = 'people.csv') {
  const answer = await owner.post('/customers/file').attach('file', Buffer.from(text), name)
  const path = answer.headers.location
  return { status: answer.status, path: path ?? '', text: path ? (await owner.get(path)).text : answer.text }
}

const post = (path: string, fields = {}) => owner.post(path).type('form').send(fields)

async function counts() {
  const count = (table: 'customer' | 'place' | 'bed') =>
    app.db
      .selectFrom(table)
      .select(eb => eb.fn.countAll<number>().as('n'))
      .executeTakeFirstOrThrow()
      .then(({ n }) => n)
  return [await count('customer'), await count('place'), await count('bed')]
}

test('a file is shown, taken in once however often it is asked, and taken back as a whole', async () => {
  const before = await counts()
  const rows = [
    'Ida Stone,(512) 555-0700,ida@example.com,4 Elder Way,Austin,78701,20 by 5; 9 ft across,Compost',
    'Ida Stone,(512) 555-0700,ida@example.com,9 Rowan Road,Austin,78702,6 cubic yards,Compost',
    '"Vale, Max",,,,,,,',
  ]
  const { path, text } = await upload(`${HEADER}\r\n${rows.join('\r\n')}\r\n`)
  expect(text).toContain('2 customers, 2 properties, 3 beds. Nothing is wrong.')
  expect(await counts()).toEqual(before)
  const both = await Promise.all([1, 2].map(() => post(`${path}/take-in`)))
  expect(both.map(({ status }) => status)).toEqual([303, 303])
  expect(await counts()).toEqual([before[0]! + 2, before[1]! + 2, before[2]! + 3])
  const beds = await app.db
    .selectFrom('bed')
    .innerJoin('place', 'place.id', 'bed.place_id')
    .innerJoin('customer', 'customer.id', 'place.customer_id')
    .select(['bed.source', 'bed.told', 'bed.understood'])
    .where('customer.name', '=', 'Ida Stone')
    .orderBy('bed.id')
    .execute()
  expect(beds.map(({ source }) => source)).toEqual(['file', 'file', 'file'])
  expect(beds.map(({ told }) => [told.shape, told.sizes, told.finish])).toEqual([
    ['rectangle', { length: '20 by 5', width: '' }, 'compost'],
    ['circle', { diameter: '9 ft' }, 'compost'],
    ['volume', { volume: '6 cubic yards' }, 'compost'],
  ])
  expect(beds.every(({ understood }) => understood?.beds.length === 1)).toBe(true)
  expect((await owner.get('/customers?q=elder+ida')).text).toContain('Ida Stone')
  expect((await owner.get('/customers?q=5550700')).text).toContain('Ida Stone')
  expect((await owner.get('/customers?q=nobody')).text).toContain('Nobody matches')
  const same = await upload(`${HEADER}\r\n${rows.join('\r\n')}\r\n`)
  const again = await post(`${same.path}/take-in`)
  expect([again.status, again.text]).toEqual([409, expect.stringContaining('with the same content before')])
  const back = await Promise.all([1, 2].map(() => post(`${path}/take-back`)))
  expect(back.map(({ status }) => status)).toEqual([303, 303])
  expect(await counts()).toEqual(before)
  expect((await post(`${same.path}/take-in`)).status).toBe(303)
  expect((await post(`${same.path}/take-back`)).status).toBe(303)
})

test('whoever takes a file in while another does, from its first look on, finds it in', async () => {
  const { path } = await upload(
    `${HEADER}\nJo Fern,,jo@example.com,3 Elder Way,Austin,78701,20 by 5,Compost\n`,
  )
  const id = Number(path.split('/').at(-1))
  const account = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()
  let first: string | undefined
  const overtaken = app.db.withPlugin({
    transformQuery: ({ node }) => node,
    transformResult: async ({ result }) => {
      if (first === undefined) {
        first = ''
        first = await takeIn(app.deps, account.id, id)
      }
      return result
    },
  })
  expect(await takeIn({ ...app.deps, db: overtaken }, account.id, id)).toBe('in before')
  expect(first).toBe('in')
  expect((await post(`${path}/take-back`)).status).toBe(303)
})

test('every fault is told by row and column, and nothing is taken in while there is one', async () => {
  const before = await counts()
  const rows = [
    'Fine One,512 555 0701,,1 Oak St,,78701,20 by 5,',
    ',12,not-mail,1 Oak St,,123,20 by 5,',
    'Bad Bed,,,2 Oak St,,78701,quite big,',
    'Bad Stuff,,,3 Oak St,,78701,20 by 5,Gold',
  ]
  const { path, text } = await upload([HEADER, ...rows].join('\n'))
  const told = [
    ...text.matchAll(/<th scope="row">(\d+)<\/th><td class="plain">([^<]*)<\/td><td class="wrong">/g),
  ].map(([, row, column]) => `${row} ${column}`)
  expect(told.sort()).toEqual(['3 Email', '3 Name', '3 Phone', '3 Zip', '4 Beds', '5 Material'])
  expect(text).toContain('You have no material “Gold”')
  const answer = await post(`${path}/take-in`)
  expect([answer.status, answer.text]).toEqual([422, expect.stringContaining('Nothing was taken in')])
  expect(await counts()).toEqual(before)
})

test('columns can be matched by hand, each once', async () => {
  const { path, text } = await upload('Wer;Wo;Tel\nGreta;3 Birch Ct;512 555 0702\n')
  expect(text).toContain('Say below which column has the name.')
  const wrong = await post(`${path}/columns`, {
    'column-name': '0',
    'column-street': '0',
    'column-phone': '7',
  })
  expect(wrong.status).toBe(422)
  expect(wrong.text).toContain('You picked that column for “Name” already.')
  expect(wrong.text).toContain('Pick one of the columns.')
  expect((await post(`${path}/columns`, { 'column-name': '0', 'column-street': '1' })).status).toBe(303)
  expect((await owner.get(path)).text).toContain('<td>3 Birch Ct</td>')
})

test('what somebody built on a file keeps it from being taken back, and is told', async () => {
  const known = await sendRequest(app, { name: 'Olive Fern', phone: '(512) 555-0711', email: '' })
  const { path } = await upload(`${HEADER}\nO. Fern,5125550711,,12 Fern Lane,,43004,20 by 5,Compost\n`)
  await post(`${path}/take-in`)
  expect((await owner.get(path)).text).toContain('Maybe you know them already')
  const { id: one } = await app.db
    .selectFrom('customer')
    .select('id')
    .where('name', '=', 'O. Fern')
    .executeTakeFirstOrThrow()
  const { customer_id: other } = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', known.id)
    .executeTakeFirstOrThrow()
  expect((await owner.get(`/customers/${one}`)).text).toContain('Same customer as')
  await decideCustomers(app.deps, { one, other, accountId: 1 }, 'same')
  const refused = await post(`${path}/take-back`)
  expect([refused.status, refused.text]).toEqual([
    409,
    expect.stringContaining('O. Fern is one customer with somebody else now'),
  ])
  for (const kind of ['place', 'customer'] as const) {
    const { id } = await app.db
      .selectFrom(`${kind}_decision`)
      .select('id')
      .orderBy('id', 'desc')
      .executeTakeFirstOrThrow()
    await takeBack(app.deps, kind, id, 1)
  }
  expect((await post(`${path}/take-back`)).status).toBe(303)
})

test('terms as a firm and what somebody agreed to get keep a file too', async () => {
  const { path } = await upload(`${HEADER}\nFirm One,,,1 Ash St,,,,\nPeace Two,,,2 Ash St,,,,\n`)
  await post(`${path}/take-in`)
  const rows = await app.db
    .selectFrom('customer')
    .select(['id', 'name'])
    .where('name', 'in', ['Firm One', 'Peace Two'])
    .orderBy('name')
    .execute()
  await post(`/customers/${rows[0]!.id}/firm`, { rules: 'Tuesdays' })
  await app.db
    .updateTable('customer')
    .set({ quiet_since: app.deps.now().toString() })
    .where('id', '=', rows[1]!.id)
    .execute()
  const refused = await post(`${path}/take-back`)
  expect(refused.status).toBe(409)
  expect(refused.text).toContain('Firm One has terms as a firm or an association')
  expect(refused.text).toContain('Peace Two said what they want to get from you')
})

test('beds of a file are last year’s for whoever calls, and then stay', async () => {
  const { path } = await upload(
    `${HEADER}\nTess Alder,5125550721,,7 Alder Row,,78701,20 by 5; 9 ft across,Stone\n`,
  )
  await post(`${path}/take-in`)
  const at = puttingIn(app, owner)
  const { id, number } = await at.isIn({ name: 'Tess', phone: '512-555-0721' })
  const page = (await owner.get(`/put-in/${number}`)).text
  expect(page).toContain('Yes, with the same beds as last year')
  const other = /name="other" value="(\d+)"/.exec(page)![1]!
  expect((await at.post(`/put-in/${number}/same-beds`, { other })).status).toBe(303)
  const row = await at.stored(number)
  expect(row.told.beds.map(({ shape, finish }) => [shape, finish])).toEqual([
    ['rectangle', 'stone'],
    ['circle', 'stone'],
  ])
  expect(row.low).not.toBeNull()
  const links = await app.db
    .selectFrom('request_bed')
    .select('bed_id')
    .where('quote_request_id', '=', id)
    .execute()
  expect(links.length).toBe(2)
  const refused = await post(`${path}/take-back`)
  expect([refused.status, refused.text]).toEqual([
    409,
    expect.stringContaining('has a request with these beds'),
  ])
})

test('files that are none, or too much, are refused kindly', async () => {
  const none = await post('/customers/file')
  expect([none.status, none.text]).toEqual([422, expect.stringContaining('Choose your file.')])
  for (const [bytes, words] of [
    [Buffer.from([0x50, 0x4b, 0, 1, 2]), 'That isn’t a CSV file.'],
    ['Name\n', 'There are no rows in it.'],
    ['Name\n"open\n', 'A quotation mark'],
    [`Name\n${'x\n'.repeat(2001)}`, 'more than 2,000 rows'],
    [`Name\n${'x'.repeat(2_000_001)}`, 'more than 2 MB'],
  ] as const)
    expect((await upload(Buffer.from(bytes as string))).text).toContain(words)
  expect((await owner.get('/customers/file/999999')).status).toBe(404)
  expect((await post('/customers/file/999999/take-in')).status).toBe(404)
})

test('only the owner may', async () => {
  const helper = await helperBrowser(app)
  for (const path of ['/customers', '/customers/file']) await expectOwnerOnly(app, helper, 'get', path)
  await expectOwnerOnly(app, helper, 'post', '/customers/file/customers.csv')
  for (const verb of ['columns', 'take-in', 'take-back'])
    await expectOwnerOnly(app, helper, 'post', `/customers/file/1/${verb}`)
})
