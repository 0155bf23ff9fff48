import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let hugo: Browser
let id: number
let number: string

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  hugo = await helperBrowser(app)
  ;({ id, number } = await sendRequest(app))
  const visit = { 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' }
  await owner.post(`/queue/${number}/visit`).type('form').send(visit).expect(303)
})
afterAll(() => app.close())

const BEDS = {
  measuredBy: 'tape',
  'beds.0.told': '0',
  'beds.0.shape': 'rectangle',
  'beds.0.sizes.length': `21'4`,
  'beds.0.sizes.width': '6',
  'beds.0.count': '1',
  'beds.0.planted': 'open',
  'beds.0.lying': 'bare',
  'beds.0.finish': 'compost',
  'beds.0.depth': '3',
  'beds.1.shape': 'circle',
  'beds.1.sizes.diameter': 'wide',
  'beds.1.count': '1',
  'beds.1.planted': 'open',
  'beds.1.lying': 'bare',
  'beds.1.finish': 'compost',
  'beds.1.depth': '',
}

function workOut(
  fields: Record<string, string> = {},
  headers: Record<string, string> = { 'x-part': 'live' },
) {
  return owner
    .post(`/queue/${number}/measure`)
    .set(headers)
    .type('form')
    .send({ ...BEDS, ...fields })
}

describe('what follows from the sheet as it is typed', () => {
  it('is each size as understood, the bed drawn, and what can be read so far summed up', async () => {
    const { status, text } = await workOut()
    expect(status).toBe(200)
    expect(text).not.toContain('<form')
    expect(text).toContain('<output id="beds-0-sizes-length-echo">= 21 ft 4 in</output>')
    expect(text).toContain('<output id="beds-1-sizes-diameter-echo">can’t read this yet</output>')
    expect(text).toMatch(/<output id="beds-1-depth-echo">= [\d.]+ in, as usual<\/output>/)
    expect(text).toContain('Rectangle, 21 ft 4 in × 6 ft')
    expect(text).toContain('So far: 1 of 2 beds')
    // 21 ft 4 in × 6 ft, 3 in deep: 32 ft³, and 5 % more to order; ÷ 27.
    expect(text).toContain('128 square feet')
    expect(text).toContain('1.24 cubic yards')
    // 32 ÷ 27 × 1.05 × 1,350 lb.
    expect(text).toContain('Compost: It weighs about 1,680 lb when wet.')
  })

  it('leaves out what is dropped, and says nothing where nothing can be read', async () => {
    const left = await workOut({ 'beds.1.drop': 'yes' })
    expect(left.text).not.toContain('So far')
    expect(left.text).toContain('128 square feet')
    const none = await workOut({ 'beds.0.drop': 'yes' })
    expect(none.text).toMatch(/id="sums"[^>]* hidden/)
    expect((await workOut({ 'beds.0.drop': 'yes', 'beds.1.drop': 'yes' })).status).toBe(200)
  })

  it('is shown on the sheet itself to whoever has no script, with what was typed and without a fault', async () => {
    const { status, text } = await workOut({}, {})
    expect(status).toBe(200)
    expect(text).toMatch(/id="beds-0-sizes-length-echo" for="[^"]*">= 21 ft 4 in</)
    expect(text).toContain('value="wide"')
    expect(text).toContain('128 square feet')
    expect(text).not.toContain('aria-invalid')
    // What stands there isn't saved, so a script puts nothing older over it.
    expect(text).not.toContain('data-fresh')
    expect((await owner.get(`/queue/${number}/measure`)).text).toContain('data-fresh')
  })

  it('stores nothing, and is the owner’s alone', async () => {
    const stored = () =>
      app.db
        .selectFrom('quote_request')
        .select(['stage', 'measured'])
        .where('id', '=', id)
        .executeTakeFirstOrThrow()
    const before = await stored()
    await workOut()
    await workOut({}, {})
    expect(await stored()).toEqual(before)
    await expectOwnerOnly(app, hugo, 'post', `/queue/${number}/measure`)
  })

  it('is not there before a visit is set', async () => {
    const other = await sendRequest(app)
    await owner.post(`/queue/${other.number}/measure`).type('form').send(BEDS).expect(409)
    await owner
      .post(`/queue/${other.number}/measure`)
      .set('x-part', 'live')
      .type('form')
      .send(BEDS)
      .expect(409)
  })
})

it('shows its shapes as pictures, each drawn once, and says what a number keypad lacks', async () => {
  const { text } = await owner.get(`/queue/${number}/measure`)
  expect(text.match(/<symbol id="shape-tile-l-shape"/g)).toHaveLength(1)
  expect(text).toContain('<use href="#shape-tile-l-shape"/>')
  expect(text).toMatch(/id="beds-0-sizes-length"[^>]*data-marks="&#39;&quot;½"/)
  expect(text).toMatch(/id="beds-0-depth"[^>]*data-marks="½"/)
})

it('a script that saves is answered without a page, so that it can tell being signed out from success', async () => {
  const fields = { ...BEDS, 'beds.1.drop': 'yes', do: 'keep' }
  const save = (browser: Browser) =>
    browser.post(`/queue/${number}/measurements`).set('x-part', 'save').type('form').send(fields)
  await save(app.browser()).expect(303)
  await save(owner).expect(204)
  const page = await owner.get(`/queue/${number}`)
  expect(page.text).toContain('The measurements are saved.')
})
