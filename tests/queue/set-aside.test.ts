import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { acceptQuote } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { addNote } from '../../src/requests/changed-by-homeowner.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { depositRequest, quotedRequest } from '../helpers/bookings.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { listAt, sectionOf } from '../helpers/queue.ts'
import { sendRequest } from '../helpers/requests.ts'

const START = '2026-03-02T15:00:00Z'
let app: TestApp
let owner: Browser
let hugo: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  hugo = await helperBrowser(app)
})
beforeEach(() => app.setClock(START))
afterAll(() => app.close())

function post(number: string, action: string, fields: Record<string, string> = {}) {
  return owner.post(`/queue/${number}/${action}`).type('form').send(fields)
}

/** The row of a request under a heading, in words; undefined where it isn't. */
async function rowUnder(heading: string, name: string, path = '/queue') {
  return sectionOf(await listAt(owner, path), heading).rows.find(row => row.startsWith(name))
}

function verbsOf(id: number) {
  return app.db
    .selectFrom('history')
    .select('verb')
    .where('quote_request_id', '=', id)
    .orderBy('id')
    .execute()
    .then(rows => rows.map(({ verb }) => verb))
}

describe('a call without an answer', () => {
  it('is counted once however often the button is pressed, with when to try again', async () => {
    const { id, number } = await sendRequest(app, { name: 'Nora Noanswer' })
    const answers = await Promise.all(
      [1, 2, 3].map(() => post(number, 'no-answer', { calls: '0', back: 'list' })),
    )
    expect(answers.map(({ status }) => status)).toEqual([303, 303, 303])
    expect(answers[0]!.headers.location).toBe('/queue')
    expect(await rowUnder('Call', 'Nora Noanswer')).toMatch(/try again Tue, Mar 3 .*called once, no answer/)
    await post(number, 'no-answer', { calls: '1', again: '2' }).expect(303)
    expect(await rowUnder('Call', 'Nora Noanswer')).toMatch(/try again Wed, Mar 4 .*called twice, no answer/)
    expect(await verbsOf(id)).toEqual(['sent', 'no answer', 'no answer'])
    app.setClock('2026-03-04T15:00:00Z')
    expect(await rowUnder('Call', 'Nora Noanswer')).toContain('try again now')
    expect((await owner.get(`/queue/${number}`)).text).toContain(
      'Called, no answer (2 times): try again Wed, Mar 4',
    )
  })

  it('begins again when the request moves on, and is refused where nobody is to be called', async () => {
    const { id, number } = await sendRequest(app, { name: 'Vic Visited' })
    await post(number, 'no-answer', { calls: '0' }).expect(303)
    await post(number, 'visit', {
      'visit.date': '2026-03-05',
      'visit.time': '09:00',
      'visit.anyway': 'yes',
    }).expect(303)
    await post(number, 'no-answer', { calls: '0' }).expect(409)
    expect(await verbsOf(id)).toEqual(['sent', 'no answer', 'visit set'])
    await post(number, 'visit/call-off').expect(303)
    expect(await rowUnder('Call', 'Vic Visited')).not.toContain('called once')
  })
})

describe('news', () => {
  it('stands on top until it is marked as seen; what came after the page was opened stands still', async () => {
    const { id, number } = await sendRequest(app, { name: 'Nell News' })
    await addNote(app.deps, id, 'Mind the <old> gate')
    await addNote(app.deps, id, 'And the dog')
    const { text } = await owner.get('/queue')
    expect(text.indexOf('id="step-news"')).toBeLessThan(text.indexOf('id="step-call"'))
    expect(await rowUnder('News', 'Nell News')).toMatch(
      /Wrote: Mind the &lt;old&gt; gate .*Wrote: And the dog .*Seen/,
    )
    const [, upTo] = /name="upTo" value="(\d+)"/.exec((await owner.get(`/queue/${number}`)).text)!
    await addNote(app.deps, id, 'She bites')
    await post(number, 'seen', { upTo: upTo!, back: 'list' }).expect(303)
    const left = await rowUnder('News', 'Nell News')
    expect(left).toContain('Wrote: She bites')
    expect(left).not.toContain('old')
    await post(number, 'seen', { upTo: '999999999' }).expect(303)
    await post(number, 'seen', { upTo: '999999999' }).expect(303)
    expect(await rowUnder('News', 'Nell News')).toBeUndefined()
  })

  it('tells what was accepted or canceled, off the list too, and goes when it is answered', async () => {
    const gone = await sendRequest(app, { name: 'Gus Gone' })
    await callOff(app.deps, gone.id, 'Moving away')
    expect(await rowUnder('News', 'Gus Gone')).toContain('Canceled: Moving away')
    await post(gone.number, 'again').expect(303)
    expect(await rowUnder('News', 'Gus Gone')).toBeUndefined()
    const accepted = await quotedRequest(app, '3', { name: 'Ada Accepted' })
    await acceptQuote(app.deps, accepted.id, { revision: 1, typedName: 'Ada' })
    expect(await rowUnder('News', 'Ada Accepted')).toContain('Accepted quote 1 as Ada')
    await post(accepted.number, 'day', { day: '2026-03-05' }).expect(303)
    expect(await rowUnder('News', 'Ada Accepted')).toBeUndefined()
  })
})

describe('on hold', () => {
  it('is off the list until its day, and can be taken off hold before', async () => {
    const { id, number } = await sendRequest(app, { name: 'Hal Hold' })
    await post(number, 'hold', { until: '2026-03-06' }).expect(303)
    await post(number, 'hold', { until: '2026-03-06' }).expect(303)
    expect(await rowUnder('Call', 'Hal Hold')).toBeUndefined()
    expect((await owner.get('/queue')).text).toContain('<a href="/queue?show=hold">On hold: 1</a>')
    expect(await rowUnder('On hold', 'Hal Hold', '/queue?show=hold')).toContain('on hold until Fri, Mar 6')
    // Friday begins in Chicago at 06:00 UTC.
    app.setClock('2026-03-06T05:59:59Z')
    expect(await rowUnder('Call', 'Hal Hold')).toBeUndefined()
    app.setClock('2026-03-06T06:00:00Z')
    expect(await rowUnder('Call', 'Hal Hold')).toBeDefined()
    await post(number, 'hold', { until: '2026-03-20' }).expect(303)
    await post(number, 'hold/end').expect(303)
    await post(number, 'hold/end').expect(303)
    expect(await rowUnder('Call', 'Hal Hold')).toBeDefined()
    expect(await verbsOf(id)).toEqual(['sent', 'put on hold', 'put on hold', 'taken off hold'])
  })

  it('holds under Collect too, where money of an ended request is held', async () => {
    const { id, number } = await depositRequest(app)
    await callOff(app.deps, id, 'Moving')
    const step = async () =>
      app.db
        .selectFrom('quote_request')
        .select(['step', 'on_hold_until'])
        .where('id', '=', id)
        .executeTakeFirstOrThrow()
    expect(await step()).toEqual({ step: 'Collect', on_hold_until: null })
    await post(number, 'hold', { until: '2026-03-06' }).expect(303)
    expect(await step()).toEqual({ step: 'Collect', on_hold_until: '2026-03-06' })
    await post(number, 'note', { note: 'Waits for their bank' })
    expect((await step()).on_hold_until).toBe('2026-03-06')
    await post(number, 'hold/end').expect(303)
    expect(await step()).toEqual({ step: 'Collect', on_hold_until: null })
  })

  it('needs a day to come, and ends when the homeowner answers', async () => {
    const { id, number } = await quotedRequest(app, '3', { name: 'Hugh Held' })
    for (const [until, fault] of [
      ['2026-03-02', 'Give a day after today.'],
      ['2027-03-05', 'more than a year ahead'],
      ['soon', 'such as 2026-04-03'],
    ] as const) {
      const answer = await post(number, 'hold', { until })
      expect(answer.status).toBe(422)
      expect(answer.text).toContain(fault)
    }
    await post(number, 'hold', { until: '2026-03-20' }).expect(303)
    await acceptQuote(app.deps, id, { revision: 1, typedName: 'Hugh' })
    expect(await rowUnder('Call', 'Hugh Held')).toContain('no day yet')
    await callOff(app.deps, id, '')
    await post(number, 'hold', { until: '2026-03-20' }).expect(409)
  })
})

describe('giving to somebody', () => {
  it('shows whose it is, and the list of one person by its address, the search in it too', async () => {
    const { id, number } = await sendRequest(app, { name: 'Gina Given' })
    await sendRequest(app, { name: 'Gina Nobody' })
    const { id: hugoId } = await app.db
      .selectFrom('account')
      .select('id')
      .where('role', '=', 'helper')
      .executeTakeFirstOrThrow()
    await post(number, 'give', { to: String(hugoId) }).expect(303)
    await post(number, 'give', { to: String(hugoId) }).expect(303)
    expect(await rowUnder('Call', 'Gina Given')).toContain('given to Hugo Moss')
    const names = async (path: string) =>
      (await listAt(owner, path)).flatMap(({ rows }) => rows).filter(row => row.startsWith('Gina'))
    expect(await names(`/queue?who=${hugoId}`)).toEqual([expect.stringContaining('Gina Given')])
    expect(await names('/queue?who=nobody')).toEqual([expect.stringContaining('Gina Nobody')])
    expect(await names(`/queue?who=${hugoId}&q=gina`)).toEqual([expect.stringContaining('Gina Given')])
    expect((await owner.get(`/queue?who=${hugoId}`)).text).toContain(
      `<a href="/queue?who=${hugoId}" aria-current="page">Hugo Moss</a>`,
    )
    await post(number, 'give', { to: '' }).expect(303)
    await post(number, 'give', { to: '99999' }).expect(404)
    expect(await verbsOf(id)).toEqual(['sent', 'given', 'given'])
  })
})

describe('junk', () => {
  it('is held apart, found by its address and by searching, and put back', async () => {
    const { id, number } = await sendRequest(app, { name: 'Spam Sender' })
    await post(number, 'junk').expect(303)
    await post(number, 'junk').expect(303)
    expect(await rowUnder('Call', 'Spam Sender')).toBeUndefined()
    expect((await owner.get('/queue')).text).toContain('<a href="/queue?show=junk">Junk: 1</a>')
    expect(await rowUnder('Junk', 'Spam Sender', '/queue?show=junk')).toContain('junk since Mon, Mar 2')
    expect(await rowUnder('Found', 'Spam Sender', '/queue?q=spam')).toBeDefined()
    // What a sender of junk writes doesn't stand out.
    await addNote(app.deps, id, 'Buy now')
    expect(await rowUnder('News', 'Spam Sender')).toBeUndefined()
    await post(number, 'real').expect(303)
    await post(number, 'real').expect(303)
    expect(await rowUnder('Call', 'Spam Sender')).toContain('answer by Wed, Mar 4')
    expect(await verbsOf(id)).toEqual(['sent', 'marked as junk', 'note added', 'marked as real'])
  })

  it('is none once somebody has dealt with it, and real once somebody deals with it', async () => {
    const quoted = await quotedRequest(app)
    await post(quoted.number, 'junk').expect(409)
    const { number } = await sendRequest(app, { name: 'Rea Real' })
    await post(number, 'junk').expect(303)
    await post(number, 'visit', {
      'visit.date': '2026-03-05',
      'visit.time': '09:00',
      'visit.anyway': 'yes',
    }).expect(303)
    expect(await rowUnder('Measure', 'Rea Real')).toBeDefined()
  })
})

it('all of it is the owner’s alone', async () => {
  const { number } = await sendRequest(app)
  for (const action of [
    'no-answer',
    'seen',
    'hold',
    'hold/end',
    'give',
    'junk',
    'real',
    'take-back',
    'again',
  ])
    await expectOwnerOnly(app, hugo, 'post', `/queue/${number}/${action}`)
})
