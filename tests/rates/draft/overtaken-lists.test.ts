import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from '../../helpers/app.ts'
import { type Browser, openBusiness } from '../../helpers/people.ts'
import { halves } from '../../photos/pictures.ts'
import { drafting, shownFields } from './drafting.ts'

let app: TestApp
let owner: Browser
let draft: ReturnType<typeof drafting>
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  draft = drafting(app, owner)
})
afterEach(() => app.close())

const finishes = async () => (await draft.stored()).body.finishes
const slugs = async () => (await finishes()).map(({ slug }) => slug)
const packs = async () => (await finishes()).find(({ slug }) => slug === 'stone')!.packs
const FINISHES = '/rates/draft/finishes'
const PACKS = '/rates/draft/finish-packs.stone'

test('a tick to take a finish out stays with that finish where another was taken out meanwhile', async () => {
  // Bark nuggets are the third of six, shredded wood the first.
  const mine = await draft.formOf(FINISHES, { 'finishes.2.out': 'yes' })
  await draft.saveSection('finishes', { 'finishes.0.out': 'yes' })
  const late = await draft.post(FINISHES, mine)
  expect(late.status).toBe(409)
  expect((await draft.post(FINISHES, shownFields(late.text))).status).toBe(303)
  expect(await slugs()).toEqual(['dyed-wood', 'pine-straw', 'compost', 'stone'])
})

test('a finish that was added meanwhile is still there when another order is saved again', async () => {
  const mine = await draft.formOf(FINISHES, { 'finishes.2.place': '1' })
  await draft.saveSection('finishes', { 'new.en': 'Gravel', 'new.es': 'Grava' })
  const late = await draft.post(FINISHES, mine)
  expect(late.status).toBe(409)
  expect((await draft.post(FINISHES, shownFields(late.text))).status).toBe(303)
  expect(await slugs()).toContain('gravel')
  expect((await slugs())[0]).toBe('bark-nuggets')
})

test('a pack keeps its kind and its slug where another was taken out meanwhile', async () => {
  const pack = (at: number, kind: string, name: string, price: string) => ({
    [`packs.${at}.kind`]: kind,
    [`packs.${at}.name.en`]: name,
    [`packs.${at}.name.es`]: name,
    [`packs.${at}.prices`]: price,
    [`packs.${at}.least`]: '1',
    [`packs.${at}.step`]: '1',
    [`packs.${at}.collected`]: 'yes',
  })
  await draft.saveSection('finish-packs.stone', { ...pack(0, 'bag', 'Bag', '4'), 'packs.0.holds': '2' })
  await draft.saveSection('finish-packs.stone', pack(1, 'bulk', 'Loose', '30'))
  const mine = await draft.formOf(PACKS, { 'packs.1.prices': '33' })
  await draft.saveSection('finish-packs.stone', { 'packs.0.out': 'yes' })
  const late = await draft.post(PACKS, mine)
  expect(late.status).toBe(409)
  await draft.post(PACKS, shownFields(late.text))
  const saved = (await packs()).map(({ slug, kind, name, prices }) => [slug, kind, name.en, prices[0]!.each])
  expect(saved).toContainEqual(['loose', 'bulk', 'Loose', '33'])
  expect(saved.map(([, kind, name]) => `${kind} ${name}`)).not.toContain('bulk Bag')
})

test('what was typed for a finish that was taken out meanwhile is still shown', async () => {
  const mine = await draft.formOf('/rates/draft/finish.stone', { 'name.en': 'River stone, rounded' })
  await draft.saveSection('finishes', { 'finishes.5.out': 'yes' })
  const late = await draft.post('/rates/draft/finish.stone', mine)
  expect(late.status).toBe(409)
  expect(late.text).toContain('River stone, rounded')
})

test('a photo for a finish that was taken out meanwhile is answered as overtaken', async () => {
  const { seen } = await draft.formOf('/rates/draft/photo/stone')
  await draft.saveSection('finishes', { 'finishes.5.out': 'yes' })
  const picture = await halves('#ff0000', '#0000ff').png().toBuffer()
  const late = await owner
    .post('/rates/draft/photo/stone')
    .field('seen', seen!)
    .attach('photo', picture, { filename: 'stone.png', contentType: 'image/png' })
  expect(late.status).toBe(409)
})

test('what somebody else took out is ticked to stay out, and can be kept after all', async () => {
  const one = (at: number, name: string, volume: string) => ({
    [`carriers.${at}.name.en`]: name,
    [`carriers.${at}.name.es`]: name,
    [`carriers.${at}.volume`]: volume,
  })
  await draft.saveSection('carriers', one(0, 'Truck', '3'))
  await draft.saveSection('carriers', one(1, 'Trailer', '2'))
  const mine = await draft.formOf('/rates/draft/carriers', { 'carriers.1.volume': '2.5' })
  await draft.saveSection('carriers', { 'carriers.0.out': 'yes' })
  const late = await draft.post('/rates/draft/carriers', mine)
  expect(late.text).toContain('Carrier 1: changed or removed after you opened this page')
  const shown = shownFields(late.text)
  const names = async () => (await draft.stored()).body.carriers.map(({ name, volume }) => [name.en, volume])
  await draft.post('/rates/draft/carriers', shown)
  expect(await names()).toEqual([['Trailer', '2.5']])
  const { seen } = await draft.formOf('/rates/draft/carriers')
  const { 'carriers.0.out': _ticked, ...unticked } = shown
  const kept = await draft.post('/rates/draft/carriers', { ...unticked, seen: seen! })
  expect(kept.status).toBe(303)
  expect((await names()).map(([name]) => name)).toContain('Truck')
})

test('the preview doesn’t say that an older version was made after the draft was opened', async () => {
  await draft.saveSection('prices', { minimumCharge: '170' })
  await draft.putInForce('2026-03-20')
  await draft.saveSection('prices', { minimumCharge: '180' })
  await draft.post('/rates/versions/2/call-off')
  expect((await owner.get('/rates/draft/preview')).text).not.toContain(
    'Version 1 was made after you started this draft',
  )
  expect((await owner.get('/rates/draft/preview')).text).toContain(
    'This draft started from version 2, which has since been canceled',
  )
})

test('a form that is sent twice at once isn’t told that nothing of it was saved', async () => {
  const form = await draft.formOf('/rates/draft/prices', { minimumCharge: '175' })
  const answers = await Promise.all([1, 2].map(() => draft.post('/rates/draft/prices', form)))
  expect((await draft.stored()).body.minimumCharge).toBe('175')
  for (const { text } of answers) expect(text).not.toContain('What you typed wasn’t saved')
})
