import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { declineQuote } from '../../src/bookings/not-this-time.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { copyAccepted } from '../helpers/bookings.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { listAt, sectionOf } from '../helpers/queue.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => app.close())

function setVisit(number: string, date: string, time = '09:00') {
  return owner
    .post(`/queue/${number}/visit`)
    .type('form')
    .send({ 'visit.date': date, 'visit.time': time })
    .expect(303)
}

describe('the queue', () => {
  it('says that nothing waits while nothing does', async () => {
    const page = await owner.get('/queue')
    expect(page.text).toContain('Nothing to do right now')
  })

  it('leads straight to the new price of each finish, from the whole list alone', async () => {
    const page = await owner.get('/queue')
    // A tap here, one into the price, one to save.
    for (const finish of ['shredded-wood', 'stone'])
      expect(page.text).toContain(`<a href="/rates/today/${finish}">`)
    expect((await owner.get('/queue?q=nobody')).text).not.toContain('/rates/today')
    expect((await owner.get('/queue?step=Call')).text).not.toContain('/rates/today')
  })

  it('lists every request under its next step, with what it may cost and what the step needs', async () => {
    await sendRequest(app, { name: 'Rita New', phone: '(512) 555-0111' })
    const visited = await sendRequest(app, { name: 'Vera Visit', street: '4 Mill Lane', postcode: '78701' })
    await setVisit(visited.number, '2026-03-05')
    const out = await sendRequest(app, { name: 'Olga Out' })
    await owner.post(`/queue/${out.number}/visit/leave-out`)
    const waiting = await sendRequest(app, { name: 'Will Wait' })
    await quoteRequest(app, waiting.number)
    const accepted = await sendRequest(app, { name: 'Acer Accepted' })
    await quoteRequest(app, accepted.number)
    await acceptQuote(app.deps, accepted.id, { revision: 1, typedName: 'Acer' })
    const booked = await sendRequest(app, { name: 'Bo Booked' })
    await quoteRequest(app, booked.number)
    await acceptQuote(app.deps, booked.id, { revision: 1, typedName: 'Bo' })
    await bookDay(app.deps, booked.id, '2026-03-09')
    const ended = await sendRequest(app, { name: 'Ned Nottaken' })
    await quoteRequest(app, ended.number)
    await declineQuote(app.deps, ended.id, { reason: 'price', words: '' })

    const sections = (await listAt(owner, '/queue')).filter(({ heading }) => heading !== 'News')
    expect(sections.map(({ heading, count }) => [heading, count])).toEqual([
      ['Call', '2'],
      ['Measure', '1'],
      ['Price', '1'],
      ['Follow up', '1'],
      ['Load', '1'],
    ])
    const rows = (heading: string) => sectionOf(sections, heading).rows.join()
    // Two working days after Monday, March 2.
    expect(rows('Call')).toMatch(
      /Rita New .*received Mon, Mar 2 answer by Wed, Mar 4 good times: Weekday mornings/,
    )
    expect(rows('Call')).toMatch(/\(512\) 555-0111 No answer/)
    expect(rows('Call')).toMatch(/Acer Accepted .*accepted Mon, Mar 2, no day yet/)
    // A bed of 100 ft² at 3 in is 0.93 yd³, so that the minimum of 150 decides.
    expect(sectionOf(sections, 'Measure').rows).toEqual([
      `Vera Visit $150 ${visited.number} 4 Mill Lane, 78701 received Mon, Mar 2 visit Thu, Mar 5, 9:00 AM Map Measure`,
    ])
    expect(rows('Price')).toMatch(/Olga Out .*answer by Wed, Mar 4 not measured Price it/)
    expect(rows('Follow up')).toMatch(
      /Will Wait \$150\.00 .*quoted Mon, Mar 2 link not sent yet; 30 days left Send the link/,
    )
    expect(rows('Load')).toMatch(/Bo Booked .*work day Mon, Mar 9/)
    expect(JSON.stringify(sections)).not.toContain('Ned Nottaken')
    const page = await owner.get('/queue')
    expect(page.text).toContain('href="tel:5125550111"')
    expect(page.text).toContain('href="geo:0,0?q=4%20Mill%20Lane%2C%2078701"')
  })

  it('offers to write where no phone was given, and asks of no call there', async () => {
    await sendRequest(app, { phone: '', email: 'rita@example.com' })
    const { text } = await owner.get('/queue')
    expect(text).toContain('<a href="mailto:rita@example.com" aria-label="Email: ')
    expect(text).not.toContain('No answer')
  })

  it('says when an answer that was promised is late, and puts what was promised first on top', async () => {
    await sendRequest(app, { name: 'Lea Late' })
    app.setClock('2026-03-04T15:00:00Z')
    await sendRequest(app, { name: 'Tim Time' })
    // Until the end of Wednesday in Chicago, where it is six hours earlier.
    app.setClock('2026-03-05T05:59:59Z')
    expect(sectionOf(await listAt(owner, '/queue'), 'Call').rows[0]).toContain('answer by Wed, Mar 4')
    app.setClock('2026-03-05T06:00:00Z')
    const { rows } = sectionOf(await listAt(owner, '/queue'), 'Call')
    expect(rows[0]).toMatch(/Lea Late .*answer was due Wed, Mar 4/)
    // Friday, as weekends aren't worked.
    expect(rows[1]).toMatch(/Tim Time .*answer by Fri, Mar 6/)
  })

  it('puts the visit that comes first on top', async () => {
    const later = await sendRequest(app, { name: 'Zoe Later' })
    await setVisit(later.number, '2026-03-12')
    const sooner = await sendRequest(app, { name: 'Ann Sooner' })
    await setVisit(sooner.number, '2026-03-04')
    const { rows } = sectionOf(await listAt(owner, '/queue'), 'Measure')
    expect(rows.map(row => row.split(' $')[0])).toEqual(['Ann Sooner', 'Zoe Later'])
  })

  it('asks to call again about a quote that had no answer for four days', async () => {
    const { number, id } = await sendRequest(app, { name: 'Will Wait' })
    await quoteRequest(app, number)
    app.setClock('2026-03-06T14:59:59Z')
    expect(sectionOf(await listAt(owner, '/queue'), 'Follow up').count).toBe('1')
    app.setClock('2026-03-06T15:00:00Z')
    const sections = await listAt(owner, '/queue')
    expect(sections.map(({ heading }) => heading)).toEqual(['Call'])
    expect(sectionOf(sections, 'Call').rows[0]).toContain('no answer since Mon, Mar 2')
    await acceptQuote(app.deps, id, { revision: 1, typedName: 'Will' })
    expect(sectionOf(await listAt(owner, '/queue'), 'Call').rows[0]).toContain('no day yet')
  })

  it('folds work days until three days before', async () => {
    const { number, id } = await sendRequest(app, { name: 'Bo Booked' })
    await quoteRequest(app, number)
    await acceptQuote(app.deps, id, { revision: 1, typedName: 'Bo' })
    await bookDay(app.deps, id, '2026-03-09')
    const folded = '<summary>1 more than three days ahead</summary>'
    // The day begins in Chicago at 05:00 UTC, since clocks change on Sunday, March 8.
    app.setClock('2026-03-06T04:59:59Z')
    expect((await owner.get('/queue')).text).toContain(folded)
    app.setClock('2026-03-06T05:00:00Z')
    expect((await owner.get('/queue')).text).not.toContain(folded)
  })

  it('shows 25 of a step with the count of all, and the others page by page, each once', async () => {
    const { number, id } = await sendRequest(app)
    await quoteRequest(app, number)
    await acceptQuote(app.deps, id, { revision: 1, typedName: 'Carol' })
    // All due at the same moment, so that their numbers decide.
    await copyAccepted(
      app,
      id,
      Array.from({ length: 80 }, () => '3'),
    )
    const seen: string[] = []
    let path = '/queue'
    for (const shown of [25, 50, 6]) {
      const text: string = (await owner.get(path).expect(200)).text
      const call = sectionOf(await listAt(owner, path), 'Call')
      expect(call.count).toBe('81')
      expect(call.rows).toHaveLength(shown)
      seen.push(...call.rows.map(row => /26-0001(?:-\d+)?/.exec(row)![0]))
      path = /href="([^"]+)">More under Call/.exec(text)?.[1]?.replaceAll('&amp;', '&') ?? ''
    }
    expect(path).toBe('')
    expect(new Set(seen).size).toBe(81)
  })

  it('begins at the top where an address can’t be read', async () => {
    await sendRequest(app, { name: 'Rita New' })
    for (const after of ['x', '1', '1@0000-01-01', '1@2026-02-30T00:00:00Z', "1@2026-01-01'"]) {
      const path = `/queue?${new URLSearchParams({ step: 'Call', after })}`
      expect(sectionOf(await listAt(owner, path), 'Call').rows[0]).toContain('Rita New')
    }
    await owner.get('/queue?who=999999999&step=Nothing&show=all').expect(200)
  })

  it('is the owner’s alone', async () => {
    const hugo = await helperBrowser(app)
    await expectOwnerOnly(app, hugo, 'get', '/queue')
    const { number } = await sendRequest(app)
    await expectOwnerOnly(app, hugo, 'get', `/queue/${number}`)
  })
})
