import { afterEach, beforeEach, expect, test } from 'vitest'
import { isUniqueViolation } from '../../../src/db/violations.ts'
import { findRateTable } from '../../../src/rates/queries.ts'
import { type TestApp, testApp } from '../../helpers/app.ts'
import { type Browser, openBusiness } from '../../helpers/people.ts'

import { drafting } from './drafting.ts'

let app: TestApp
let owner: Browser
let draft: ReturnType<typeof drafting>
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  draft = drafting(app, owner)
})
afterEach(() => app.close())

const inForce = async () => (await findRateTable(app.db, app.deps.now()))!

test('a draft begins with the first section that is saved, and goes on', async () => {
  const before = (await owner.get('/rates/draft')).text
  expect(before).toContain('There’s no draft yet')
  expect(before).toContain('Put in your costs to see pay per hour')
  expect((await draft.saveSection('prices', {})).status).toBe(303)
  expect(await app.db.selectFrom('rate_draft').selectAll().execute()).toEqual([])
  expect((await owner.get('/rates')).text).not.toContain('A draft of the next version is open')
  await draft.saveSection('prices', { minimumCharge: '175' })
  expect(await draft.stored()).toMatchObject({ revision: 1, body: { minimumCharge: '175' } })
  await draft.saveSection('costs', { 'costs.wage': '20' })
  expect(await draft.stored()).toMatchObject({
    revision: 2,
    body: { minimumCharge: '175', costs: { wage: '20' } },
  })
  expect((await owner.get('/rates/draft')).text).toContain('It starts from version 1')
  expect((await owner.get('/rates')).text).toContain('A draft of the next version is open')
})

test('of five that begin a draft at the same moment one does, and the others keep what they typed', async () => {
  const form = await draft.formOf('/rates/draft/prices')
  const answers = await Promise.all(
    [1, 2, 3, 4, 5].map(n => draft.post('/rates/draft/prices', { ...form, minimumCharge: String(200 + n) })),
  )
  expect(answers.map(({ status }) => status).sort()).toEqual([303, 409, 409, 409, 409])
  const { body, revision } = await draft.stored()
  expect(revision).toBe(1)
  answers.forEach(({ status, text }, index) => {
    if (status === 409) expect(text).toContain(`value="${201 + index}"`)
    else expect(body.minimumCharge).toBe(String(201 + index))
  })
})

test('a form filled in from rates that are no longer the newest is shown again, with what it would change', async () => {
  const old = await draft.formOf('/rates/draft/prices', { minimumCharge: '199' })
  expect((await draft.post('/rates', await draft.formOf('/rates', { minimumCharge: '160' }))).status).toBe(
    303,
  )
  const refused = await draft.post('/rates/draft/prices', old)
  expect(refused.status).toBe(409)
  expect(refused.text).toContain('The rates changed after you opened this form')
  expect(refused.text).toMatch(/minimum charge<\/th><td>\$160<\/td><td>\$199</)
  const { seen = '' } = /name="seen" value="(?<seen>[^"]+)"/.exec(refused.text)!.groups!
  expect((await draft.post('/rates/draft/prices', { ...old, seen })).status).toBe(303)
  expect((await draft.stored()).body.minimumCharge).toBe('199')
})

test('the database holds one draft at most', async () => {
  await draft.open()
  const copy = app.store.executeSql(
    `insert into rate_draft (based_on, body, made_at, made_by, saved_at, saved_by)
     select based_on, body, made_at, made_by, saved_at, saved_by from rate_draft`,
  )
  expect(await copy.catch(error => isUniqueViolation(error, 'rate_draft_one_open'))).toBe(true)
})

test('without a draft there is nothing to preview, to put in force or to drop', async () => {
  expect((await owner.get('/rates/draft/preview')).headers.location).toBe('/rates/draft')
  for (const path of ['/rates/draft/put-in-force', '/rates/draft/drop'])
    expect([path, (await draft.post(path)).status]).toEqual([path, 409])
  expect((await owner.get('/rates/draft')).text).not.toContain('Drop the draft')
  expect((await owner.get('/rates/draft/finish.gold')).status).toBe(404)
})

test('a section is saved by itself, and nothing is in force of it', async () => {
  await draft.open()
  const answer = await draft.saveSection('costs', { 'costs.wage': '$21.50', 'costs.burden': '12.5' })
  expect([answer.status, answer.headers.location]).toEqual([303, '/rates/draft'])
  const { body, revision } = await draft.stored()
  expect(revision).toBe(2)
  expect(body.costs).toMatchObject({ wage: '21.5', burden: '0.125', truckPerJob: '0' })
  expect((await inForce()).body.costs.wage).toBeNull()
  const page = (await owner.get('/rates/draft')).text
  expect(page).toContain('Saved in the draft: Wages, overhead, truck, and margin.')
  expect(page).toMatch(/wage<\/th><td>–<\/td><td>\$21\.50 per labor hour</)
})

test('a bad figure is refused beside its field, and what was typed is kept', async () => {
  await draft.open()
  const faults: [section: string, field: string, typed: string, says: string][] = [
    ['costs', 'costs.wage', 'dear', '“dear” can’t be read as a figure'],
    ['beds', 'planted.full', '95', 'From 0% to 90%.'],
    ['prices', 'tiers', '10; 5', 'Larger than the one before.'],
    ['finish.stone', 'depth.usual', '9', 'Least, usual, and greatest, in that order.'],
    ['finish.stone', 'swatch', 'grey', 'A color such as #8a5a2b.'],
    ['finish.stone', 'pricedBy', 'cost', 'Needs what it costs to buy, and your wage per labor hour.'],
    ['finish.stone', 'name.es', '', 'Give a text.'],
    ['finishes', 'new.en', 'Stone', 'Give the name in Spanish too.'],
  ]
  for (const [section, field, typed, says] of faults) {
    const answer = await draft.saveSection(section, { [field]: typed })
    expect([field, answer.status]).toEqual([field, 422])
    expect(answer.text).toContain(says)
    expect(answer.text).toMatch(/<title>Error: /)
    if (typed && field !== 'pricedBy') expect(answer.text).toContain(`value="${typed}"`)
  }
  expect((await draft.stored()).revision).toBe(1)
})

test('a pack is added by its kind, with breaks and delivery; it can be pinned and taken out', async () => {
  await draft.open()
  const path = '/rates/draft/finish-packs.compost'
  const bag = {
    'packs.0.name.en': 'Bag of 2 ft³',
    'packs.0.name.es': 'Bolsa',
    'packs.0.holds': '2',
    'packs.0.prices': '0: 4.20; 40: 3.60',
    'packs.0.delivered.fee': '45',
  }
  expect((await draft.post(path, await draft.formOf(`${path}?add=bag`, bag))).status).toBe(303)
  const packs = async () => (await draft.stored()).body.finishes.find(({ slug }) => slug === 'compost')!
  expect((await packs()).packs).toEqual([
    {
      slug: 'bag-of-2-ft',
      kind: 'bag',
      name: { en: 'Bag of 2 ft³', es: 'Bolsa' },
      holds: '2',
      weightWet: null,
      prices: [
        { from: '0', each: '4.20' },
        { from: '40', each: '3.60' },
      ],
      least: '1',
      step: '1',
      collected: true,
      delivered: { fee: '45', freeFrom: null },
    },
  ])
  await draft.saveSection('finish-packs.compost', { pinned: 'bag-of-2-ft:delivered' })
  expect((await packs()).pinned).toBe('bag-of-2-ft:delivered')
  const refused = await draft.saveSection('finish-packs.compost', { 'packs.0.out': 'yes' })
  expect(refused.text).toContain('Not one of its ways to buy.')
  await draft.saveSection('finish-packs.compost', { 'packs.0.out': 'yes', pinned: '' })
  expect((await packs()).packs).toEqual([])
})

test('a pack sent without its kind is read as the first kind, and faults stand beside its fields', async () => {
  await draft.open()
  const path = '/rates/draft/finish-packs.compost'
  const form = { ...(await draft.formOf(path)), 'packs.7.holds': 'five' }
  for (const kind of ['', 'sack']) {
    const answer = await draft.post(path, { ...form, 'packs.7.kind': kind })
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('href="#packs-7-holds"')
    expect(answer.text).toContain('value="five"')
  }
})

test('finishes are put in order, taken out and added', async () => {
  await draft.open()
  const before = (await inForce()).body.finishes.map(({ slug }) => slug)
  const answer = await draft.saveSection('finishes', {
    'finishes.5.place': '1',
    'finishes.1.out': 'yes',
    'new.en': 'Río gravel',
    'new.es': 'Grava de río',
    'new.like': 'stone',
  })
  expect(answer.status).toBe(303)
  const { body } = await draft.stored()
  const slugs = body.finishes.map(({ slug }) => slug)
  expect(slugs).toEqual([before[5], before[0], before[2], before[3], before[4], 'rio-gravel'])
  expect(body.finishes.at(-1)).toMatchObject({ rates: [{ lower: '150', upper: '190' }], hatch: 'pebbles' })
})

test('who saves a form that somebody overtook is told who, keeps what was typed, and can save it then', async () => {
  await draft.open()
  const late = await draft.formOf('/rates/draft/prices', { minimumCharge: '199' })
  await draft.saveSection('costs', { 'costs.wage': '20' })
  const refused = await draft.post('/rates/draft/prices', late)
  expect(refused.status).toBe(409)
  expect(refused.text).toContain('Alice Fern saved this draft on')
  expect(refused.text).toContain('value="199"')
  expect(refused.text).toMatch(/minimum charge<\/th><td>\$150<\/td><td>\$199</)
  const seen = /name="seen" value="([^"]+)"/.exec(refused.text)![1]!
  expect((await draft.post('/rates/draft/prices', { ...late, seen })).status).toBe(303)
  const { body } = await draft.stored()
  expect([body.minimumCharge, body.costs.wage]).toEqual(['199', '20'])
})

test('of five that save at the same moment one is saved', async () => {
  await draft.open()
  const form = await draft.formOf('/rates/draft/prices')
  const answers = await Promise.all(
    [1, 2, 3, 4, 5].map(n => draft.post('/rates/draft/prices', { ...form, minimumCharge: String(200 + n) })),
  )
  expect(answers.map(({ status }) => status).sort()).toEqual([303, 409, 409, 409, 409])
})

test('a draft that was dropped and opened again is another draft', async () => {
  await draft.open()
  const old = await draft.formOf('/rates/draft/prices', { minimumCharge: '199' })
  await draft.post('/rates/draft/drop', { seen: (await draft.formOf('/rates/draft')).seen! })
  await draft.open()
  expect((await draft.post('/rates/draft/prices', old)).status).toBe(409)
  expect((await draft.post('/rates/draft/drop', { seen: old.seen! })).status).toBe(409)
})

test('a promise that no range keeps is refused beside its field', async () => {
  const refused = await draft.saveSection('ranges', { promise: '96' })
  expect(refused.status).toBe(422)
  expect(refused.text).toContain('value="96"')
  expect(refused.text).toContain('From 50% to 95%.')
  expect((await draft.saveSection('ranges', { promise: '95' })).status).toBe(303)
  expect((await draft.stored()).body.promise).toBe('0.95')
})
