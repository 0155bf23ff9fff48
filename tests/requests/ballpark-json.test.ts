import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { manyBeds } from '../helpers/many-beds.ts'
import { openBusiness } from '../helpers/people.ts'
import { bedTold } from '../helpers/requests.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const ask = (body: object) => app.browser().post('/ballpark').send(body)
const told = (...beds: object[]) => ({ beds, extras: [], postcode: '' })

async function faultsOf(body: object): Promise<string[]> {
  const answer = await ask(body)
  expect(answer.status).toBe(422)
  for (const { message } of answer.body.errors) expect(message).toMatch(/\w{3}/)
  return answer.body.errors.map((fault: { field: string }) => fault.field)
}

test('the answer has exactly the documented fields', async () => {
  const answer = await ask(told(bedTold()))
  expect(answer.status).toBe(200)
  expect(answer.headers['content-type']).toMatch(/^application\/json/)
  expect(Object.keys(answer.body).sort()).toEqual([
    'area',
    'beds',
    'cautions',
    'inPlace',
    'materials',
    'narrower',
    'range',
  ])
  expect(answer.body.area).toEqual({ value: '100.0000', unit: 'ft2' })
  expect(answer.body.beds).toEqual([
    { area: { value: '100.0000', unit: 'ft2' }, edge: { value: '50.0000', unit: 'ft' } },
  ])
  expect(answer.body.materials).toEqual([
    { material: 'shredded-wood', amount: { value: '0.9259', unit: 'yd3' } },
  ])
  expect(Object.keys(answer.body.range).sort()).toEqual(['currency', 'high', 'likely', 'low'])
  expect(answer.body.range.currency).toBe('USD')
  for (const caution of answer.body.cautions) {
    expect(Object.keys(caution).sort()).toEqual(['code', 'source', 'text'])
  }
})

// Edges: the whole outline, of a strip less the wall side; of an area or a volume it isn't known.
test.each([
  ['rectangle', { length: '20', width: '5' }, '100.0000', '50.0000'],
  ['strip', { length: '20', width: '5' }, '100.0000', '30.0000'],
  ['curvy', { length: '20', width: '5' }, '100.0000', '50.0000'],
  ['triangle', { base: '6', height: '8' }, '24.0000', undefined],
  ['area', { area: '250' }, '250.0000', null],
  ['circle', { diameter: '20' }, undefined, undefined],
  ['oval', { length: '15', width: '5' }, undefined, undefined],
  ['ring', { outer: '10', inner: '4' }, undefined, undefined],
  ['tree-ring', { inner: '4', band: '3' }, undefined, undefined],
  ['two-arms', { length: '20', width: '5', armLength: '10', armWidth: '4' }, '140.0000', '70.0000'],
  ['volume', { volume: '2 cubic yards' }, undefined, null],
])('a %s is taken with its sizes', async (shape, sizes, area, edge) => {
  const answer = await ask(told(bedTold({ shape, sizes: sizes as Record<string, string> })))
  expect(answer.status).toBe(200)
  const [bed] = answer.body.beds
  if (area !== undefined) expect(bed.area).toEqual({ value: area, unit: 'ft2' })
  if (edge === null) expect(bed.edge).toBeNull()
  else expect(bed.edge).toEqual({ value: edge ?? expect.stringMatching(/^\d+\.\d{4}$/), unit: 'ft' })
})

test('a volume is what was said, whatever the depth', async () => {
  const answer = await ask(told(bedTold({ shape: 'volume', sizes: { volume: '2 cubic yards' } })))
  expect(answer.body.inPlace).toEqual({ value: '54.0000', unit: 'ft3' })
})

test('three like this count three times in the whole, once in the bed', async () => {
  const answer = await ask(told(bedTold({ count: 3 })))
  expect(answer.body.area.value).toBe('300.0000')
  expect(answer.body.inPlace.value).toBe('75.0000')
  expect(answer.body.beds).toHaveLength(1)
  expect(answer.body.beds[0].area.value).toBe('100.0000')
})

test('numbers may be sent as numbers, and no depth means the usual one', async () => {
  const sent = bedTold({ sizes: { length: 20, width: 5 } as never, count: 1, depth: '' })
  const answer = await ask(told(sent))
  expect(answer.status).toBe(200)
  expect(answer.body.inPlace.value).toBe('25.0000')
})

test.each([
  ['no beds at all', { extras: [], postcode: '' }, ['beds']],
  ['an empty list of beds', told(), ['beds']],
  ['41 beds', told(...Array.from({ length: 41 }, () => bedTold())), ['beds']],
  ['an unknown shape', told(bedTold({ shape: 'star' })), ['beds.0.shape']],
  ['sizes that are missing', told(bedTold({ sizes: {} })), ['beds.0.sizes.length', 'beds.0.sizes.width']],
  [
    'a size that says nothing',
    told(bedTold({ sizes: { length: 'long', width: '5' } })),
    ['beds.0.sizes.length'],
  ],
  ['a size of nothing', told(bedTold({ sizes: { length: '0', width: '5' } })), ['beds.0.sizes.length']],
  [
    'a hole as large as its ring',
    told(bedTold({ shape: 'ring', sizes: { outer: '4', inner: '4' } })),
    ['beds.0.sizes.inner'],
  ],
  ['none like this', told(bedTold({ count: 0 })), ['beds.0.count']],
  ['100 like this', told(bedTold({ count: 100 })), ['beds.0.count']],
  ['another way of measuring', told(bedTold({ measuredBy: 'drone' })), ['beds.0.measuredBy']],
  ['another planting', told(bedTold({ planted: 'jungle' })), ['beds.0.planted']],
  ['a layer that says nothing', told(bedTold({ lying: 'some' })), ['beds.0.lying']],
  ['an unknown finish', told(bedTold({ finish: 'gold' })), ['beds.0.finish']],
  ['a depth that says nothing', told(bedTold({ depth: 'deep' })), ['beds.0.depth']],
  ['an unknown extra', { ...told(bedTold()), extras: ['fountain'] }, ['extras.0']],
])('%s is refused at its field', async (_what, body, fields) => {
  expect(await faultsOf(body)).toEqual(fields)
})

test('every fault is told at once, each at its bed', async () => {
  const fields = await faultsOf(
    told(bedTold({ count: 0 }), bedTold(), bedTold({ finish: 'gold', depth: 'x' })),
  )
  expect(fields).toEqual(['beds.0.count', 'beds.2.finish', 'beds.2.depth'])
})

test('40 beds and 99 like this are taken', async () => {
  const beds = Array.from({ length: 40 }, () => bedTold({ count: 99 }))
  expect((await ask(told(...beds))).status).toBe(200)
})

test.each(['[]', 'null', '"bed"', '7'])('%s is no question, and is refused as such', async body => {
  const answer = await app.browser().post('/ballpark').type('json').send(body)
  expect(answer.status).toBe(422)
  expect(answer.body.errors[0].field).toBe('beds')
})

test('what is no JSON is answered 400, in JSON', async () => {
  const answer = await app.browser().post('/ballpark').type('json').send('{"beds":')
  expect(answer.status).toBe(400)
  expect(answer.body.errors[0].message).toMatch(/\w/)
})

test('a ZIP that is served adds its travel; one that is not gives a caution, with 200', async () => {
  const area = told(bedTold({ sizes: { length: '60', width: '20' } }))
  const [without, served, elsewhere] = await Promise.all([
    ask(area),
    ask({ ...area, postcode: '78701' }),
    ask({ ...area, postcode: '10001' }),
  ])
  expect(Number(served.body.range.likely)).toBe(Number(without.body.range.likely) + 25)
  expect(elsewhere.status).toBe(200)
  const codes = elsewhere.body.cautions.map((caution: { code: string }) => caution.code)
  expect(codes).toContain('postcode-not-served')
  expect(without.body.cautions.map((caution: { code: string }) => caution.code)).not.toContain(
    'postcode-not-served',
  )
})

test('another site may ask, since asking changes nothing', async () => {
  const answer = await app
    .browser()
    .post('/ballpark')
    .set('origin', 'https://elsewhere.example')
    .set('sec-fetch-site', 'cross-site')
    .send(told(bedTold()))
  expect(answer.status).toBe(200)
})

test('messages come in the language that is asked for', async () => {
  const answer = await ask(told(bedTold({ count: 0 }))).set('accept-language', 'es')
  const english = await ask(told(bedTold({ count: 0 })))
  expect(answer.body.errors[0].message).not.toBe(english.body.errors[0].message)
})

test('the finishes are listed with their depths', async () => {
  const answer = await app.browser().get('/finishes')
  expect(answer.status).toBe(200)
  expect(answer.body).toHaveLength(6)
  expect(answer.body[0]).toEqual({
    slug: 'shredded-wood',
    name: 'Shredded hardwood mulch',
    depth: { least: '2', usual: '3', greatest: '4', unit: 'in' },
  })
})

// RFC 9110, 8.3.1: the name of a media type is the same in capitals.
test('a program may write its media type in capitals', async () => {
  const answer = await app
    .browser()
    .post('/ballpark')
    .set('Content-Type', 'Application/JSON')
    .send(JSON.stringify(told(bedTold())))
  expect([answer.status, answer.body.area]).toEqual([200, { value: '100.0000', unit: 'ft2' }])
})

test('what would narrow the range is looked for up to ten beds, or when it is asked for', async () => {
  const narrower = async (beds: number, wanted?: boolean | null) =>
    (await ask({ ...told(...manyBeds(beds)), narrower: wanted })).body.narrower
  expect(await narrower(10)).not.toBeNull()
  expect(await narrower(11)).toBeNull()
  expect(await narrower(11, null)).toBeNull()
  expect(await narrower(11, true)).not.toBeNull()
  expect(await narrower(10, false)).toBeNull()
  expect(await faultsOf({ ...told(...manyBeds(2)), narrower: 'yes' })).toEqual(['narrower'])
})

test('what has two readings is named with both, and sent as the other it has no doubt', async () => {
  const bed = (length: string) => told(bedTold({ sizes: { length, width: '10' } }))
  const { body } = await ask(bed('12-6'))
  // 12 ft 6 in × 10 ft, and 9 ft × 10 ft.
  expect(body.area.value).toBe('125.0000')
  expect(body.doubtful).toEqual([
    { field: 'beds.0.sizes.length', read: '= 12 ft 6 in', or: ['6 ft - 12 ft'] },
  ])
  const other = await ask(bed(body.doubtful[0].or[0]))
  expect([other.body.area.value, other.body.doubtful]).toEqual(['90.0000', undefined])
})
