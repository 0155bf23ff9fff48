import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let hugo: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  hugo = await helperBrowser(app)
})
afterAll(() => app.close())

const BED = {
  'beds.0.told': '0',
  'beds.0.shape': 'rectangle',
  'beds.0.sizes.length': '21 ft 4 in',
  'beds.0.sizes.width': '5',
  'beds.0.count': '1',
  'beds.0.planted': 'half',
  'beds.0.lying': 'bare',
  'beds.0.lyingDepth': '',
  'beds.0.finish': 'shredded-wood',
  'beds.0.depth': '3',
}
const SHEET: Record<string, string> = { measuredBy: 'tape', do: 'keep', ...BED }

/** Fields of one more bed on the sheet, found on site. */
function found(index: number, fields: Record<string, string>): Record<string, string> {
  const bed = {
    shape: 'circle',
    'sizes.diameter': '6',
    count: '2',
    planted: 'open',
    lying: 'thin',
    lyingDepth: '',
    finish: 'compost',
    depth: '',
    ...fields,
  }
  return Object.fromEntries(Object.entries(bed).map(([name, typed]) => [`beds.${index}.${name}`, typed]))
}

async function visitSet(instead: Parameters<typeof sendRequest>[1] = {}) {
  const sent = await sendRequest(app, instead)
  await owner
    .post(`/queue/${sent.number}/visit`)
    .type('form')
    .send({ 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' })
    .expect(303)
  return sent
}

function keep(number: string, sheet: Record<string, string> = SHEET) {
  return owner.post(`/queue/${number}/measurements`).type('form').send(sheet)
}

function kept(id: number) {
  return app.db
    .selectFrom('quote_request')
    .select(['stage', 'measured'])
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
}

describe('the site-visit sheet', () => {
  it('shows what was told beside empty sizes, measured by tape', async () => {
    const { number } = await visitSet({ gate: 'Code 4711', dog: 'Rex' })
    const page = await owner.get(`/queue/${number}/measure`)
    expect(page.status).toBe(200)
    expect(page.text).toContain('Rectangle, 20 ft × 5 ft')
    expect(page.text).toMatch(/name="beds\.0\.sizes\.length"[^>]*value=""/)
    expect(page.text).toMatch(/name="measuredBy" value="tape"[^>]*checked/)
    expect(page.text).toContain('Code 4711')
    expect(page.text).toContain('Rex')
  })

  it('keeps what was measured, ends the visit and puts the request under Price', async () => {
    const { id, number } = await visitSet()
    const answer = await keep(number)
    expect(answer.headers.location).toBe(`/queue/${number}`)
    const { stage, measured } = await kept(id)
    expect(stage).toBe('measured')
    expect(measured!.beds).toEqual([
      {
        toldBed: 0,
        shape: 'rectangle',
        sizes: { length: '21 ft 4 in', width: '5' },
        count: '1',
        measuredBy: 'tape',
        planted: 'half',
        lying: 'bare',
        finish: 'shredded-wood',
        depth: '3',
        layers: [],
      },
    ])
    const visit = await app.db
      .selectFrom('visit')
      .select('done_at')
      .where('quote_request_id', '=', id)
      .executeTakeFirstOrThrow()
    expect(visit.done_at).toBe('2026-03-02T15:00:00Z')
    const page = await owner.get(`/queue/${number}`)
    expect(page.text).toContain('Homeowner: Rectangle, 20 ft × 5 ft')
    expect(page.text).toContain('Measured: Rectangle, 21 ft 4 in × 5 ft')
    expect(page.text).toContain('Price it')
  })

  it('takes the told sizes where the tick says so, with how they were measured', async () => {
    const beds = told(bedTold({ sizes: { length: 'about 30', width: '4' }, measuredBy: 'eye' }))
    const { id, number } = await visitSet({ told: beds })
    await keep(number, { ...SHEET, 'beds.0.asTold': 'yes', 'beds.0.sizes.length': '' }).expect(303)
    const [bed] = (await kept(id)).measured!.beds
    expect(bed!.sizes).toEqual({ length: 'about 30', width: '4' })
    expect(bed!.measuredBy).toBe('eye')
  })

  it('adds a bed found on site, takes a depth for what lies there, and drops a ticked one', async () => {
    const { id, number } = await visitSet()
    const sheet = {
      ...SHEET,
      ...found(1, { lyingDepth: '1 1/2' }),
      'beds.0.drop': 'yes',
      'extras[]': 'edging',
    }
    await keep(number, sheet).expect(303)
    const { measured } = await kept(id)
    expect(measured!.beds).toHaveLength(1)
    expect(measured!.beds[0]).toMatchObject({ toldBed: null, shape: 'circle', count: '2', lying: '1 1/2' })
    expect(measured!.extras).toEqual(['edging'])
    const page = await owner.get(`/queue/${number}`)
    expect(page.text).toContain('Left out on site')
    expect(page.text).toContain('Found on site')
  })

  it('gives another bed to fill in and keeps what was typed so far', async () => {
    const { id, number } = await visitSet()
    const page = await keep(number, { ...SHEET, do: 'add-bed' })
    expect(page.status).toBe(200)
    expect(page.text).toContain('name="beds.1.shape"')
    expect(page.text).toContain('value="21 ft 4 in"')
    expect((await kept(id)).measured).toBeNull()
  })

  it('can be kept again until there is a quote, with the fields as they were left', async () => {
    const { id, number } = await visitSet()
    await keep(number).expect(303)
    const sheet = await owner.get(`/queue/${number}/measure`)
    expect(sheet.text).toMatch(/name="beds\.0\.sizes\.length"[^>]*value="21 ft 4 in"/)
    await keep(number, { ...SHEET, 'beds.0.sizes.width': '6' }).expect(303)
    expect((await kept(id)).measured!.beds[0]!.sizes.width).toBe('6')
    await quoteRequest(app, number)
    await keep(number).expect(409)
    await owner.get(`/queue/${number}/measure`).expect(409)
  })

  it('refuses bad input beside its field, names every one, and keeps what was typed', async () => {
    const { id, number } = await visitSet()
    const answer = await keep(number, {
      ...SHEET,
      ...found(1, { 'sizes.diameter': 'plenty-ish', lyingDepth: 'mossy' }),
      'beds.0.sizes.length': '',
      'beds.0.count': '0',
    })
    expect(answer.status).toBe(422)
    for (const field of ['beds-0-sizes-length', 'beds-0-count', 'beds-1-sizes-diameter', 'beds-1-lyingDepth'])
      expect(answer.text).toContain(`id="${field}-error"`)
    expect(answer.text).toContain('value="plenty-ish"')
    expect(answer.text).toContain('value="mossy"')
    expect((await kept(id)).stage).toBe('visit set')
  })

  it('points a fault behind a dropped bed at the field where it was typed', async () => {
    const { number } = await visitSet()
    const answer = await keep(number, {
      ...SHEET,
      ...found(1, { 'sizes.diameter': '' }),
      'beds.0.drop': 'yes',
    })
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('id="beds-1-sizes-diameter-error"')
  })

  it('refuses a sheet with every bed dropped, or with nothing on it', async () => {
    const { number } = await visitSet()
    const dropped = await keep(number, { ...SHEET, 'beds.0.drop': 'yes' })
    expect(dropped.status).toBe(422)
    expect(dropped.text).toContain('Keep at least one bed')
    await keep(number, { do: 'keep' }).expect(422)
  })

  it('is not there before a visit is set, and is the owner’s alone', async () => {
    const { number } = await sendRequest(app)
    await owner.get(`/queue/${number}/measure`).expect(409)
    await keep(number).expect(409)
    await expectOwnerOnly(app, hugo, 'get', `/queue/${number}/measure`)
    await expectOwnerOnly(app, hugo, 'post', `/queue/${number}/measurements`)
  })

  it('sent five times at once it is kept once', async () => {
    const { id, number } = await visitSet()
    const answers = await Promise.all(Array.from({ length: 5 }, () => keep(number)))
    expect(answers.map(answer => answer.status)).toEqual([303, 303, 303, 303, 303])
    const history = await app.db
      .selectFrom('history')
      .select('verb')
      .where('quote_request_id', '=', id)
      .where('verb', '=', 'measured')
      .execute()
    expect(history).toHaveLength(1)
  })
})

it('says what it read that could have meant something else', async () => {
  const { number } = await visitSet()
  const answer = await keep(number, { ...SHEET, 'beds.0.sizes.length': '12-6' })
  const page = await owner.get(answer.headers.location!)
  expect(page.text).toContain('Please check: read as 12 ft 6 in and not 6 ft - 12 ft.')
})
