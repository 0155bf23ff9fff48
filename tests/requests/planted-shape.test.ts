import { afterAll, beforeAll, expect, test } from 'vitest'
import { shapes } from '../../src/estimate/shapes/all-shapes.ts'
import { rectangle } from '../../src/estimate/shapes/rectangle.ts'
import type { Shape } from '../../src/estimate/shapes/shape.ts'
import { buildAssets } from '../../src/http/assets.ts'
import { catalogue } from '../../src/language/catalogue.ts'
import { SIZE_WORDS } from '../../src/visits/size-words.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendForm } from '../helpers/request-form.ts'

// What adding a shape takes: one entry of the registry, and its sentences.
const star: Shape = {
  offered: true,
  icon: [{ path: 'M28 2L40 36L10 14H46L16 36Z', as: 'thin' }],
  sizes: [
    { name: 'points', reads: 'length' },
    { name: 'width', reads: 'length' },
  ],
  area: ({ points, width }) => points!.times(width!).times(3),
  formula: ({ points, width }, f) => `3 × ${f.length(points!)} × ${f.length(width!)}`,
  edge: () => null,
  elasticities: () => [1, 1],
  formError: () => 'plain',
  impossible: () => null,
  outline: ({ points, width }) => rectangle.outline({ length: points!, width: width! }),
}

const SENTENCES = {
  'beds.shape-star': 'Star',
  'beds.title-star': 'Star, {points} by {width}',
  'form.points': 'Point to point',
}

let app: TestApp
let owner: Browser
beforeAll(async () => {
  Object.assign(shapes, { star })
  for (const messages of Object.values(catalogue)) Object.assign(messages, SENTENCES)
  Object.assign(SIZE_WORDS, { points: 'From point to point' })
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(async () => {
  await app.close()
  // The files that this worker runs next see the same modules.
  Reflect.deleteProperty(shapes, 'star')
  Reflect.deleteProperty(SIZE_WORDS, 'points')
  for (const messages of Object.values(catalogue))
    for (const key of Object.keys(SENTENCES)) Reflect.deleteProperty(messages, key)
})

const STAR = { 'beds.0.shape': 'star', 'beds.0.sizes.points': '10', 'beds.0.sizes.width': '2' }
// Its new size stands before the one that it shares, as it does in the shape.
const FIELDS =
  /data-shapes="star">.*?name="beds\.0\.sizes\.points".*data-shapes="[^"]* star">.*?name="beds\.0\.sizes\.width"/s

test('homeowners can pick a shape that was declared, by its icon, and are asked for its sizes', async () => {
  const page = (await app.browser().get('/')).text
  const icon = '<path class="icon-thin" d="M28 2L40 36L10 14H46L16 36Z"/>'
  expect(page).toContain(`<symbol id="shape-tile-star" viewBox="0 0 56 40">${icon}</symbol>`)
  expect(page).toMatch(/value="volume".*<use href="#shape-tile-star"\/>.*value="star"/s)
  expect(page).toMatch(FIELDS)
  expect(page).toContain('Point to point')
})

test('its sizes are kept, read and shown, and its area is worked out', async () => {
  const address = new URLSearchParams({ ...STAR, 'beds.0.finish': 'stone' })
  const page = (await app.browser().get(`/?${address}`)).text
  expect(page).toContain('Star, 10 ft by 2 ft')
  expect(page).toMatch(/id="beds-0-sizes-points-echo"[^>]*>= 10 ft</)
  expect(page).toContain('60 square feet')
  expect(page).toMatch(/<p class="range-figure"[^>]*>\$[\d,]+/)
})

test('the site-visit sheet has it too', async () => {
  await sendForm(app, { ...STAR, 'beds.0.finish': 'stone' })
  const number = /\/queue\/([\w-]+)"/.exec((await owner.get('/queue')).text)![1]!
  const day = { 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' }
  await owner.post(`/queue/${number}/visit`).type('form').send(day).expect(303)
  const sheet = (await owner.get(`/queue/${number}/measure`).expect(200)).text
  expect(sheet).toMatch(/value="star" class="shape-pick" checked/)
  expect(sheet).toMatch(FIELDS)
  expect(sheet).toContain('From point to point')
})

test('the style sheet hides the sizes of other shapes while it is picked', async () => {
  const { files } = await buildAssets()
  const style = [...files.values()].find(({ type }) => type.startsWith('text/css'))!.plain.toString()
  expect(style).toContain('.bed:has(.shape-pick[value=star]:checked) .size:not([data-shapes~=star])')
})
