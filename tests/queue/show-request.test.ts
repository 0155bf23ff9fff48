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

describe('one request', () => {
  it('shows who and where, the beds drawn, the range as it was stored, and the next step first', async () => {
    const { number, id } = await sendRequest(app, {
      name: 'Dora <Quill>',
      phone: '(512) 555-0111',
      email: 'dora@example.com',
      gate: 'Left latch',
      dog: 'Two terriers',
      note: 'Mind the tulips',
      preferredTimes: 'After four',
      told: told(
        bedTold({ sizes: { length: '60', width: '10' } }),
        bedTold({ shape: 'circle', sizes: { diameter: '8' } }),
      ),
    })
    const { text } = await owner.get(`/queue/${number}`).expect(200)
    expect(text).toContain('Dora &lt;Quill&gt;')
    expect(text).toContain('href="tel:5125550111"')
    expect(text).toContain('href="mailto:dora@example.com"')
    for (const words of ['Left latch', 'Two terriers', 'Mind the tulips', 'After four'])
      expect(text).toContain(words)
    expect(text).toContain('Rectangle, 60 ft × 10 ft')
    expect(text).toContain('Circle, 8 ft across')
    const { low, high } = await app.db
      .selectFrom('ballpark')
      .select(['low', 'high'])
      .where('quote_request_id', '=', id)
      .executeTakeFirstOrThrow()
    expect(text).toContain(`$${Number(low)} to $${Number(high)}`)
    expect(text.indexOf('Set the visit')).toBeLessThan(text.indexOf('What was said'))
  })

  it('is not there for a number that there isn’t', async () => {
    await owner.get('/queue/26-9999').expect(404)
    await owner.get('/queue/%00').expect(res => expect(res.status).toBeGreaterThanOrEqual(400))
  })
})

describe('a note of the owner’s', () => {
  function note(number: string, words: string) {
    return owner.post(`/queue/${number}/note`).type('form').send({ note: words })
  }

  it('goes into the history with who wrote it and when; twice in a row it is one', async () => {
    const { number } = await sendRequest(app)
    await note(number, 'Has a trailer in the drive').expect(303)
    await note(number, 'Has a trailer in the drive').expect(303)
    const { text } = await owner.get(`/queue/${number}`)
    expect(text.match(/Note: Has a trailer/g)).toHaveLength(1)
    expect(text).toMatch(/Note: Has a trailer.*Mon, Mar 2, 9:00.AM.*Alice Fern/)
  })

  it('is refused when it is empty or too long, and what was typed stays', async () => {
    const { number } = await sendRequest(app)
    const empty = await note(number, '  ')
    expect(empty.status).toBe(422)
    expect(empty.text).toContain('id="note-error"')
    const long = await note(number, `begin ${'x'.repeat(2000)}`)
    expect(long.status).toBe(422)
    expect(long.text).toContain('>begin xxx')
  })

  it('is the owner’s alone', async () => {
    const { number } = await sendRequest(app)
    await expectOwnerOnly(app, hugo, 'post', `/queue/${number}/note`)
  })
})

describe('what can’t be done', () => {
  function cannotDo(number: string, reason: string) {
    return owner.post(`/queue/${number}/cannot-do`).type('form').send({ reason: 'other', words: reason })
  }

  function stateOf(id: number) {
    return app.db
      .selectFrom('quote_request')
      .leftJoin('visit', 'visit.quote_request_id', 'quote_request.id')
      .select(['stage', 'visit.called_off_at'])
      .where('quote_request.id', '=', id)
      .executeTakeFirstOrThrow()
  }

  it('leaves the list with its reason, and the visit is called off; a repeat does nothing more', async () => {
    const { id, number } = await sendRequest(app, { name: 'Cora Cannot' })
    await owner
      .post(`/queue/${number}/visit`)
      .type('form')
      .send({ 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' })
    await cannotDo(number, 'Too far out').expect(303)
    await cannotDo(number, 'Too far out').expect(303)
    expect(await stateOf(id)).toEqual({ stage: "can't do", called_off_at: '2026-03-02T15:00:00Z' })
    const list = await owner.get('/queue')
    expect(list.text).not.toContain('Cora Cannot')
    const page = await owner.get(`/queue/${number}`)
    expect(page.text.match(/Turned down: something else: Too far out/g)).toHaveLength(1)
    expect(page.text).not.toContain('Turn it down')
  })

  it('needs a reason', async () => {
    const { id, number } = await sendRequest(app)
    const answer = await cannotDo(number, '')
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('id="words-error"')
    expect((await stateOf(id)).stage).toBe('new')
  })

  it('is refused once there is a quote, and to all but the owner', async () => {
    const { number } = await sendRequest(app)
    await quoteRequest(app, number)
    await cannotDo(number, 'No').expect(409)
    await expectOwnerOnly(app, hugo, 'post', `/queue/${number}/cannot-do`)
  })
})
