import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { declineQuote } from '../../src/bookings/not-this-time.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => app.close())

/** The list as headings with their counts, and under each the names with the words of their rows. */
async function listAt(path: string) {
  const { text } = await owner.get(path).expect(200)
  const sections = text.split('<h2 class="step"').slice(1)
  return sections.map(section => {
    const [heading, count] = /id="[^"]+">([\w’ ]+?)\s*(?:<span class="step-count">(\d+)<\/span>)?<\/h2>/
      .exec(section)!
      .slice(1) as [string, string | undefined]
    const rows = section
      .split('<li class="row">')
      .slice(1)
      .map(row =>
        row
          .replace(/<[^>]*>/g, ' ')
          .replace(/\s+/g, ' ')
          .trim(),
      )
    return { heading, count: Number(count ?? 0), rows }
  })
}

function sectionOf(sections: Awaited<ReturnType<typeof listAt>>, heading: string) {
  return sections.find(section => section.heading === heading)
}

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

  it('lists every request under its next step, with what it may cost and what is next', async () => {
    await sendRequest(app, { name: 'Rita New' })
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

    const sections = await listAt('/queue')
    expect(sections.map(({ heading, count }) => [heading, count])).toEqual([
      ['Call', 2],
      ['Measure', 1],
      ['Price', 1],
      ['Follow up', 1],
      ['Load', 1],
    ])
    expect(sectionOf(sections, 'Call')!.rows.join()).toMatch(/Rita New .*received Mon, Mar 2 to be called/)
    expect(sectionOf(sections, 'Call')!.rows.join()).toMatch(
      /Acer Accepted .*accepted Mon, Mar 2, no day yet/,
    )
    // A bed of 100 ft² at 3 in is 0.93 yd³, so that the minimum of 150 decides.
    expect(sectionOf(sections, 'Measure')!.rows).toEqual([
      `Vera Visit $150 ${visited.number} 4 Mill Lane, 78701 received Mon, Mar 2 visit Thu, Mar 5, 9:00 AM`,
    ])
    expect(sectionOf(sections, 'Price')!.rows.join()).toContain('Olga Out')
    expect(sectionOf(sections, 'Follow up')!.rows.join()).toMatch(
      /Will Wait \$150\.00 .*good through Wed, Apr 1/,
    )
    expect(sectionOf(sections, 'Load')!.rows.join()).toMatch(/Bo Booked .*work day Mon, Mar 9/)
    expect(JSON.stringify(sections)).not.toContain('Ned Nottaken')
  })

  it('puts the visit that comes first on top', async () => {
    const later = await sendRequest(app, { name: 'Zoe Later' })
    await setVisit(later.number, '2026-03-12')
    const sooner = await sendRequest(app, { name: 'Ann Sooner' })
    await setVisit(sooner.number, '2026-03-04')
    const { rows } = sectionOf(await listAt('/queue'), 'Measure')!
    const names = rows.map(row => row.split(' $')[0]).filter(name => name !== 'Vera Visit')
    expect(names).toEqual(['Ann Sooner', 'Zoe Later'])
  })

  it('shows 25 of a step with the count of all, and the others page by page', async () => {
    await sendRequest(app, { name: 'Rita New' })
    const before = sectionOf(await listAt('/queue'), 'Call')!.count
    app.setClock('2026-03-03T15:00:00Z')
    for (let n = 0; n < 30; n++) await sendRequest(app, { name: `Row ${n}` })
    const ring = sectionOf(await listAt('/queue'), 'Call')!
    expect(ring.count).toBe(before + 30)
    expect(ring.rows).toHaveLength(25)
    const page = await owner.get('/queue')
    expect(page.text).toContain(`href="/queue?step=Call&amp;from=25">${before + 5} more under Call`)
    const others = sectionOf(await listAt('/queue?step=Call&from=25'), 'Call')!
    expect(others.rows).toHaveLength(before + 5)
    expect(others.rows.at(-1)).toContain('Row 29')
  })

  it('is the owner’s alone', async () => {
    const hugo = await helperBrowser(app)
    await expectOwnerOnly(app, hugo, 'get', '/queue')
    const { number } = await sendRequest(app)
    await expectOwnerOnly(app, hugo, 'get', `/queue/${number}`)
  })
})
