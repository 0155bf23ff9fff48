import { afterAll, beforeAll, expect, test } from 'vitest'
import { findRateTable, insertRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'
import { drafting } from '../rates/draft/drafting.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  // As the owner sets it: stone lies on 2 in of compost, then weeding, since any work by area may be a layer.
  const { version, body } = (await findRateTable(app.db, app.deps.now()))!
  const [edging] = body.extras
  const weeding = {
    ...edging!,
    slug: 'weeding',
    name: { en: 'Weeding', es: 'Desyerbar' },
    per: 'area' as const,
  }
  const { id: made_by } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()
  const made = { made_at: app.deps.now().toString(), made_by }
  const row = { version: version + 1, body: { ...body, extras: [edging!, weeding] }, ...made }
  await app.db.transaction().execute(trx => insertRateTable(trx, row))
  const draft = drafting(app, owner)
  const refused = await draft.saveSection('finish.stone', { 'layers.0.depth': '2' })
  expect(refused.text).toContain('Pick what is that deep.')
  const layers = { 'layers.0.slug': 'compost', 'layers.0.depth': '2', layersOptional: 'yes' }
  expect((await draft.saveSection('finish.stone', layers)).status).toBe(303)
  const more = await draft.saveSection('finish.stone', { 'layers.1.slug': 'weeding' })
  expect(more.status).toBe(303)
  expect((await draft.putInForce('2026-03-02')).status).toBe(303)
})
afterAll(() => app.close())

const rectangle = {
  'beds.0.shape': 'rectangle',
  'beds.0.sizes.length': '20 ft',
  'beds.0.sizes.width': '5 ft',
  'beds.0.count': '1',
  'beds.0.finish': 'stone',
  'beds.0.planted': 'open',
  'beds.0.lying': 'bare',
  'beds.0.depth': '',
  measuredBy: 'tape',
  postcode: '',
}

async function shown(fields: Record<string, string> = {}, language = 'en') {
  const query = new URLSearchParams({ ...rectangle, ...fields })
  return (await app.browser().get(`/?${query}`).set('accept-language', language)).text
}

/** The likeliest price that a page shows. */
const likelyOn = (page: string) => /most likely \$([\d,]+)/.exec(page)?.[1]

test('the rates in force have what the owner set, from the top down', async () => {
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  const stone = body.finishes.find(({ slug }) => slug === 'stone')!
  expect(stone.layers).toEqual([
    { slug: 'compost', depth: '2' },
    { slug: 'weeding', depth: null },
  ])
  expect(stone.layersOptional).toBe(true)
})

test('homeowners read what lies under it, and pay less without', async () => {
  const [page, without] = [await shown(), await shown({ 'beds.0.layers': 'none' })]
  expect(page).toMatch(/Under it: [^<]*, 2 in; [^<]*\. It’s part of the price\./)
  expect(page).toMatch(/<input type="checkbox" id="beds-0-layers" name="beds.0.layers" value="none">/)
  expect(without).toMatch(/name="beds.0.layers" value="none" checked/)
  expect(without).toMatch(/Without: [^<]*, 2 in/)
  expect(Number(likelyOn(without))).toBeLessThan(Number(likelyOn(page)))
  expect(await shown({}, 'es')).toMatch(/Debajo va: [^<]*, 2 pulg; /)
  const wood = await shown({ 'beds.0.finish': 'shredded-wood' })
  expect(wood).toContain('<div id="bed-1-layers" data-live hidden>')
})

test('what was left out stays so on the way to the end, and on a bed that is copied', async () => {
  const fields = { ...rectangle, 'beds.0.layers': 'none' }
  const copied = await app
    .browser()
    .post('/ballpark')
    .type('form')
    .send({ ...fields, do: 'copy.0' })
  expect(copied.headers.location).toContain('beds.1.layers=none')
  const contact = (await app.browser().get(`/request?${new URLSearchParams(fields)}`)).text
  expect(contact).toContain('<input type="hidden" name="beds.0.layers" value="none">')
})

test('another program is told the same price, and may leave it out', async () => {
  const ask = async (layers?: unknown) => {
    const beds = [{ ...bedTold({ finish: 'stone' }), ...(layers === undefined ? {} : { layers }) }]
    return app.browser().post('/ballpark').send({ beds })
  }
  const [usual, none, own] = [await ask(), await ask('none'), await ask([{ what: 'compost', depth: '9' }])]
  expect(usual.body.materials.map((one: { material: string }) => one.material)).toEqual(['compost', 'stone'])
  expect(none.body.materials.map((one: { material: string }) => one.material)).toEqual(['stone'])
  expect(own.status).toBe(422)
})

async function visitSet() {
  const sent = await sendRequest(app, { told: told(bedTold({ finish: 'stone' })) })
  const day = { 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' }
  await owner.post(`/queue/${sent.number}/visit`).type('form').send(day).expect(303)
  return sent
}

function sheet(layers: Record<string, string>): Record<string, string> {
  const fields = { told: '0', asTold: 'yes', planted: 'open', lying: 'bare', lyingDepth: '', count: '1' }
  const bed = { ...fields, shape: 'rectangle', finish: 'stone', depth: '3', ...layers }
  const named = Object.entries(bed).map(([name, typed]) => [`beds.0.${name}`, typed])
  return { measuredBy: 'tape', do: 'keep', ...Object.fromEntries(named) }
}

const measuredLayers = async (id: number) => {
  const row = await app.db
    .selectFrom('quote_request')
    .select('measured_understood')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  return row.measured_understood!.beds[0]!.layers
}

test('the sheet begins with the layers as understood; they are changed, refused beside the field, and taken out', async () => {
  const { id, number } = await visitSet()
  const path = `/queue/${number}/measure`
  const first = (await owner.get(path)).text
  expect(first).toMatch(/<details open><summary>What lies under it/)
  expect(first).toMatch(/id="beds-0-layers-0-what"[\s\S]*?value="compost" selected/)
  expect(first).toMatch(/id="beds-0-layers-1-what"[\s\S]*?value="weeding" selected/)
  expect(first).toMatch(/name="beds.0.layers.0.depth"[^>]*value="2 in"/)

  const keep = (layers: Record<string, string>) =>
    owner.post(`/queue/${number}/measurements`).type('form').send(sheet(layers))
  const refused = await keep({ 'layers.0.what': 'compost', 'layers.0.depth': 'deep' })
  expect(refused.status).toBe(422)
  expect(refused.text).toContain('id="beds-0-layers-0-depth-error"')
  expect(refused.text).toMatch(/name="beds.0.layers.0.depth"[^>]*value="deep"/)

  const changed = {
    'layers.0.what': '',
    'layers.0.depth': '',
    'layers.1.what': 'bark-nuggets',
    'layers.1.depth': '4',
  }
  await keep(changed).expect(303)
  expect(await measuredLayers(id)).toEqual([{ finish: 'bark-nuggets', depth: { value: '4', unit: 'in' } }])
  const request = (await owner.get(`/queue/${number}`)).text
  expect(request).toMatch(/Under it: [^<]*, 4 in/)

  await keep({}).expect(303)
  expect(await measuredLayers(id)).toBeUndefined()
  const again = (await owner.get(path)).text
  expect(again).toMatch(/<details><summary>What lies under it/)
  expect(again).toContain('Usually on: ')
})
