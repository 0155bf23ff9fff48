import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Extra } from '../../src/estimate/table/rate-table.ts'
import { findRateTable, insertRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  const rates = (await findRateTable(app.db, app.deps.now()))!
  const [edging] = rates.body.extras as [Extra]
  const weeds = (slug: string): Extra => ({
    ...edging,
    slug,
    name: { en: slug.replace('-', ' '), es: slug },
    per: 'area',
    group: 'weeds',
  })
  const extras = [edging, weeds('light-weeds'), weeds('heavy-weeds')]
  const { id: made_by } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()
  const body = { ...rates.body, extras }
  const row = { version: rates.version + 1, body, made_at: app.deps.now().toString(), made_by }
  await app.db.transaction().execute(trx => insertRateTable(trx, row))
})
afterAll(() => app.close())

const MORE = {
  work: 'new',
  cutOuts: '3 of 1 ft across; 2 x 1 ft',
  noEdge: '12 ft 6 in',
  carry: '90',
  stairs: '7',
  slope: 'steep',
  gate: 'narrow',
  'extras[]': 'edging',
  'groups.weeds': 'heavy-weeds',
}

function sheet(more: Record<string, string>, whole: Record<string, string> = {}): Record<string, string> {
  const bed = {
    told: '0',
    shape: 'rectangle',
    'sizes.length': '20',
    'sizes.width': '5',
    count: '1',
    planted: 'open',
    lying: 'bare',
    lyingDepth: '',
    finish: 'shredded-wood',
    depth: '3',
    ...more,
  }
  const fields = Object.entries(bed).map(([name, typed]) => [`beds.0.${name}`, typed])
  return { measuredBy: 'tape', do: 'keep', ...Object.fromEntries(fields), ...whole }
}

async function visitSet(instead: Parameters<typeof sendRequest>[1] = {}) {
  const sent = await sendRequest(app, instead)
  const day = { 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' }
  await owner.post(`/queue/${sent.number}/visit`).type('form').send(day).expect(303)
  return sent
}

const keep = (number: string, fields: Record<string, string>) =>
  owner.post(`/queue/${number}/measurements`).type('form').send(fields)

/** The fold as it stands on the sheet. */
function foldOf(page: string): { open: boolean; html: string } {
  const [, open, html] = /<details( open)?><summary>More about this bed<\/summary>([\s\S]*?)<\/details>/.exec(
    page,
  )!
  return { open: open !== undefined, html: html! }
}

describe('more about a bed, on the site-visit sheet', () => {
  it('is folded away until something is said, and asks about a top-up', async () => {
    const { number } = await visitSet()
    const { open, html } = foldOf((await owner.get(`/queue/${number}/measure`)).text)
    expect(open).toBe(false)
    expect(html).toMatch(/value="top-up"[^>]*checked/)
    expect(html).toContain('name="beds.0.groups.weeds"')
    expect(html).toContain('name="beds.0.extras[]"')
  })

  it('is kept with what was measured, and shown again', async () => {
    const { id, number } = await visitSet()
    await keep(number, sheet(MORE)).expect(303)
    const { measured } = await app.db
      .selectFrom('quote_request')
      .select('measured')
      .where('id', '=', id)
      .executeTakeFirstOrThrow()
    const { cutOuts, noEdge, carry, stairs, slope, gate } = MORE
    expect(measured!.beds[0]).toMatchObject({ work: 'new', cutOuts, noEdge, carry, stairs, slope, gate })
    expect(measured!.beds[0]!.extras).toEqual(['edging', 'heavy-weeds'])
    const { open, html } = foldOf((await owner.get(`/queue/${number}/measure`)).text)
    expect(open).toBe(true)
    expect(html).toMatch(/value="new"[^>]*checked/)
    expect(html).toContain(`>${cutOuts}</textarea>`)
    for (const typed of [noEdge, carry, stairs]) expect(html).toContain(`value="${typed}"`)
    expect(html).toMatch(/value="edging"[^>]*checked/)
    expect(html).toMatch(/value="heavy-weeds" selected/)
    expect(html).toMatch(/value="steep" selected/)
    expect(html).toMatch(/value="narrow"[^>]*checked/)
  })

  it('asks of slopes and gates only where the rates have a figure for them', async () => {
    const { number } = await visitSet()
    const asked = async () => foldOf((await owner.get(`/queue/${number}/measure`)).text).html
    expect(await asked()).toContain('name="beds.0.slope"')
    expect(await asked()).toContain('name="beds.0.gate"')
    const off = { slope: '1', steep: '1', gate: '1' }
    const rates = (await findRateTable(app.db, app.deps.now()))!
    const { version, body } = rates
    const row = { version: version + 1, body: { ...body, labor: { ...body.labor, ...off } } }
    const made = { made_at: app.deps.now().toString(), made_by: 1 }
    await app.db.transaction().execute(trx => insertRateTable(trx, { ...row, ...made }))
    expect(await asked()).not.toMatch(/name="beds\.0\.(slope|gate)"/)
    await app.db
      .transaction()
      .execute(trx => insertRateTable(trx, { ...row, body, version: version + 2, ...made }))
  })

  it('leaves nothing where nothing is said', async () => {
    const { id, number } = await visitSet()
    const nothing = { work: 'top-up', cutOuts: ' ', noEdge: '', carry: '', stairs: '', 'groups.weeds': '' }
    await keep(number, sheet(nothing)).expect(303)
    const { open } = foldOf((await owner.get(`/queue/${number}/measure`)).text)
    expect(open).toBe(false)
    const { measured } = await app.db
      .selectFrom('quote_request')
      .select('measured')
      .where('id', '=', id)
      .executeTakeFirstOrThrow()
    expect(measured!.beds[0]).not.toHaveProperty('cutOuts')
    expect(measured!.beds[0]).not.toHaveProperty('extras')
  })

  it('is said to the staff and to the homeowner where beds are listed', async () => {
    const { number, ownPath } = await visitSet()
    await keep(number, sheet(MORE)).expect(303)
    const staff = await owner.get(`/queue/${number}`).expect(200)
    // 100 less 3 × π ÷ 4 and 2 is 95.6; the edge 50 less 12.5.
    for (const words of [
      'Cut out: 3 of 1 ft across; 2 ft × 1 ft',
      'No edge along 12 ft 6 in',
      'New bed: spread to the full depth',
      '96 square feet',
    ])
      expect(staff.text).toContain(words)
    const homeowner = await app.browser().get(ownPath).expect(200)
    expect(homeowner.text).not.toContain('name="beds.0.cutOuts"')
  })

  it('that another program told is on the sheet to begin with', async () => {
    const { number } = await visitSet({ told: told(bedTold({ cutOuts: '2 ft across' })) })
    const { open, html } = foldOf((await owner.get(`/queue/${number}/measure`)).text)
    expect(open).toBe(true)
    expect(html).toContain('>2 ft across</textarea>')
  })

  it('is refused beside its field, unfolded, and kept as typed', async () => {
    const { number } = await visitSet()
    const wrong = { work: 'old', cutOuts: '2 ft; a tree', noEdge: '51', carry: 'far', stairs: '201' }
    const answer = await keep(number, sheet(wrong))
    expect(answer.status).toBe(422)
    const { open, html } = foldOf(answer.text)
    expect(open).toBe(true)
    for (const field of ['work', 'cutOuts', 'noEdge', 'carry', 'stairs'])
      expect(html).toContain(`id="beds-0-${field}-error"`)
    expect(html).toContain('“a tree”')
    expect(html).toContain('>2 ft; a tree</textarea>')
    for (const typed of ['51', 'far', '201']) expect(html).toContain(`value="${typed}"`)
  })

  it('another extra of a group than the whole job has is refused beside the choice', async () => {
    const { number } = await visitSet()
    const answer = await keep(number, sheet({ 'groups.weeds': 'heavy-weeds' }, { 'extras[]': 'light-weeds' }))
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('id="beds-0-groups-weeds-error"')
    expect(answer.text).toContain('light-weeds is chosen for the whole job')
    expect(answer.text).toMatch(/value="heavy-weeds" selected/)
  })

  it('what excludes each other for the whole job is one choice, and comes back as it was chosen', async () => {
    const { number } = await visitSet()
    const first = await owner.get(`/queue/${number}/measure`)
    const radios = /type="radio" id="[^"]*" name="groups\.weeds" value="([^"]*)"( checked)?/g
    const chosen = (page: string) =>
      [...page.matchAll(radios)].map(([, value, checked]) => value + (checked ?? ''))
    expect(chosen(first.text)).toEqual([' checked', 'light-weeds', 'heavy-weeds'])
    await keep(number, sheet({}, { 'groups.weeds': 'heavy-weeds', 'extras[]': 'edging' }))
    const again = await owner.get(`/queue/${number}/measure`)
    expect(chosen(again.text)).toEqual(['', 'light-weeds', 'heavy-weeds checked'])
    expect(again.text).toMatch(/id="extras-edging"[^>]*checked/)
  })

  it('two of a group for the whole job are refused beside the second', async () => {
    const { number } = await visitSet()
    const fields = { ...sheet({}), 'extras[]': ['light-weeds', 'heavy-weeds'] }
    const answer = await owner.post(`/queue/${number}/measurements`).type('form').send(fields)
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('id="groups-weeds-error"')
  })
})
