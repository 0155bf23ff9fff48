import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let hugo: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  hugo = await helperBrowser(app)
})
afterAll(() => app.close())

const THURSDAY = { 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' }

function setVisit(number: string, form: Record<string, string> = THURSDAY) {
  return owner.post(`/queue/${number}/visit`).type('form').send(form)
}

function visitsOf(id: number) {
  return app.db
    .selectFrom('visit')
    .select(['starts_at', 'called_off_at', 'done_at'])
    .where('quote_request_id', '=', id)
    .orderBy('id')
    .execute()
}

async function stageOf(id: number) {
  const row = await app.db
    .selectFrom('quote_request')
    .select('stage')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  return row.stage
}

async function mailsOf(id: number) {
  const rows = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', id)
    .where('kind', '=', 'visit-set')
    .execute()
  return rows.length
}

describe('arranging a visit', () => {
  it('sets the time, tells the homeowner by mail, and says so', async () => {
    const { id, number } = await sendRequest(app)
    const answer = await setVisit(number)
    expect(answer.status).toBe(303)
    expect(answer.headers.location).toBe(`/queue/${number}`)
    expect(await stageOf(id)).toBe('visit set')
    expect((await visitsOf(id)).map(visit => visit.starts_at)).toEqual(['2026-03-05T15:00:00Z'])
    expect(await mailsOf(id)).toBe(1)
    const page = await owner.get(`/queue/${number}`)
    expect(page.text).toContain('The visit is set for Thu, Mar 5, 9:00')
    expect(page.text).toContain(`/queue/${number}/measure`)
  })

  it('texts who has no mail address', async () => {
    const { id, number } = await sendRequest(app, { email: '' })
    await setVisit(number).expect(303)
    expect(await mailsOf(id)).toBe(1)
    const { way } = await app.db
      .selectFrom('outbox')
      .select('way')
      .where('quote_request_id', '=', id)
      .where('kind', '=', 'visit-set')
      .executeTakeFirstOrThrow()
    expect(way).toBe('text')
  })

  it('moves it: the time before is called off, and the homeowner hears of the new one', async () => {
    const { id, number } = await sendRequest(app)
    await setVisit(number).expect(303)
    await setVisit(number, {
      'visit.date': '2026-03-06',
      'visit.time': '10:30',
      'visit.anyway': 'yes',
    }).expect(303)
    const visits = await visitsOf(id)
    expect(visits.map(visit => [visit.starts_at, visit.called_off_at !== null])).toEqual([
      ['2026-03-05T15:00:00Z', true],
      ['2026-03-06T16:30:00Z', false],
    ])
    expect(await mailsOf(id)).toBe(2)
    const page = await owner.get(`/queue/${number}`)
    expect(page.text).toContain('Visit moved to Fri, Mar 6')
  })

  it('refuses a past time beside its field and keeps what was typed', async () => {
    const { id, number } = await sendRequest(app)
    const answer = await setVisit(number, { 'visit.date': '2026-02-27', 'visit.time': '09:15' })
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('id="visit-date-error"')
    expect(answer.text).toContain('value="2026-02-27"')
    expect(answer.text).toContain('value="09:15"')
    expect(await stageOf(id)).toBe('new')
  })

  it('refuses it once there is a quote', async () => {
    const { id, number } = await sendRequest(app)
    await quoteRequest(app, number)
    await setVisit(number).expect(409)
    expect(await stageOf(id)).toBe('quoted')
  })

  it('is the owner’s alone', async () => {
    const { id, number } = await sendRequest(app)
    await expectOwnerOnly(app, hugo, 'post', `/queue/${number}/visit`)
    expect(await stageOf(id)).toBe('new')
  })

  it('knows no request that there isn’t', async () => {
    await setVisit('26-9999').expect(404)
  })

  it('sent five times at once it is one visit and one mail', async () => {
    const { id, number } = await sendRequest(app)
    const answers = await Promise.all(Array.from({ length: 5 }, () => setVisit(number)))
    expect(answers.map(answer => answer.status)).toEqual([303, 303, 303, 303, 303])
    expect(await visitsOf(id)).toHaveLength(1)
    expect(await mailsOf(id)).toBe(1)
  })
})

describe('a page that is behind', () => {
  const typed = (page: string) => /name="visit\.seen" value="(\d+)"/.exec(page)?.[1] ?? 'none'

  it('moves no visit that it doesn’t show, and says so', async () => {
    const { id, number } = await sendRequest(app)
    const seen = typed((await owner.get(`/queue/${number}`)).text)
    expect(seen).toBe('0')
    await setVisit(number, { ...THURSDAY, 'visit.seen': seen }).expect(303)
    // The same again is no other.
    await setVisit(number, { ...THURSDAY, 'visit.seen': seen }).expect(303)
    const other = { ...THURSDAY, 'visit.time': '11:00', 'visit.seen': seen }
    const refused = await setVisit(number, other).expect(422)
    expect(refused.text).toContain('The visit has changed since you opened this page.')
    expect([await mailsOf(id), (await visitsOf(id)).length]).toEqual([1, 1])
    // What it shows now moves it.
    await setVisit(number, { ...other, 'visit.seen': typed(refused.text) }).expect(303)
    expect((await visitsOf(id)).map(({ starts_at }) => starts_at)).toEqual([
      '2026-03-05T15:00:00Z',
      '2026-03-05T17:00:00Z',
    ])
  })

  it('cancels no visit for a homeowner that it doesn’t show them', async () => {
    const { id, number, ownPath } = await sendRequest(app)
    await setVisit(number).expect(303)
    const page = (await app.browser().get(`${ownPath}/visit`)).text
    const seen = /name="seen" value="(\d+)"/.exec(page)![1]!
    await setVisit(number, { ...THURSDAY, 'visit.time': '15:00' }).expect(303)
    const off = (shown: string) =>
      app.browser().post(`${ownPath}/visit`).type('form').send({ pick: 'off', seen: shown })
    expect((await off(seen).expect(409)).text).toContain('The visit has changed since you opened this page.')
    expect(await stageOf(id)).toBe('visit set')
  })
})

describe('calling a visit off', () => {
  it('puts the request back under Call, and does nothing the second time', async () => {
    const { id, number } = await sendRequest(app)
    await setVisit(number)
    for (const _ of [1, 2]) await owner.post(`/queue/${number}/visit/call-off`).expect(303)
    expect(await stageOf(id)).toBe('new')
    const [visit] = await visitsOf(id)
    expect(visit!.called_off_at).toBe('2026-03-02T15:00:00Z')
    const page = await owner.get(`/queue/${number}`)
    expect(page.text.match(/Visit canceled/g)).toHaveLength(1)
  })

  it('refuses it once there is a quote, and to all but the owner', async () => {
    const { number } = await sendRequest(app)
    await quoteRequest(app, number)
    await owner.post(`/queue/${number}/visit/call-off`).expect(409)
    await expectOwnerOnly(app, hugo, 'post', `/queue/${number}/visit/call-off`)
  })
})

describe('leaving the visit out', () => {
  it('goes on to the price, and lists the request under Price', async () => {
    const { number } = await sendRequest(app, { name: 'Nora Ashdown' })
    for (const _ of [1, 2]) {
      const answer = await owner.post(`/queue/${number}/visit/leave-out`)
      expect(answer.headers.location).toBe(`/queue/${number}/quote`)
    }
    const list = await owner.get('/queue')
    const [, afterPrice] = list.text.split('id="step-price"')
    expect(afterPrice).toContain('Nora Ashdown')
    const page = await owner.get(`/queue/${number}`)
    expect(page.text.match(/Visit skipped/g)).toHaveLength(1)
  })

  it('is taken back by arranging one', async () => {
    const { id, number } = await sendRequest(app)
    await owner.post(`/queue/${number}/visit/leave-out`)
    await setVisit(number).expect(303)
    await owner.post(`/queue/${number}/visit/call-off`).expect(303)
    const page = await owner.get(`/queue/${number}`)
    expect(page.text).toContain('Next: <strong>call</strong>')
    expect(await stageOf(id)).toBe('new')
  })

  it('refuses it while a visit is set, and to all but the owner', async () => {
    const { number } = await sendRequest(app)
    await setVisit(number)
    await owner.post(`/queue/${number}/visit/leave-out`).expect(409)
    await expectOwnerOnly(app, hugo, 'post', `/queue/${number}/visit/leave-out`)
  })
})
