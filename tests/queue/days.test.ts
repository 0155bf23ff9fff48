import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest } from '../helpers/bookings.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let helper: Browser
let number: string

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  helper = await helperBrowser(app)
  const job = await acceptedRequest(app, '11', {
    gate: 'Code 4711',
    dog: 'Rex, friendly',
    street: '12 <Fern> Lane',
  })
  number = job.number
  await bookDay(app.deps, job.id, '2026-03-05')
  await acceptQuote(app.deps, (await acceptedRequest(app)).id, { revision: 1, typedName: 'Nobody' })
})
afterAll(() => app.close())

function changeRoom(browser: Browser, day: string, hours: string) {
  return browser
    .post(`/days/${day}/room`)
    .type('form')
    .send({ [`room.${day}`]: hours })
}

async function roomOf(day: string) {
  const row = await app.db
    .selectFrom('work_day')
    .select('room_hours')
    .where('day', '=', day)
    .executeTakeFirst()
  return row?.room_hours
}

/** What a page says, without its markup. */
function words(html: string): string {
  return html
    .replace(/<(style|title|defs)\b.*?<\/\1>/gs, ' ')
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ')
}

describe('the strip of days', () => {
  test('two weeks from today, with room and jobs', async () => {
    const { text } = await owner.get('/days').expect(200)
    expect(text.match(/id="day-2026-/g)).toHaveLength(14)
    expect(text).toContain(`href="/queue/${number}"`)
    expect(words(text)).toContain('Thursday, March 5')
    expect(words(text)).toContain('Full: all 8 labor hours taken')
    expect(words(text)).toContain('8 of 11 labor hours')
    expect(words(text)).toContain('3 of 11 labor hours')
    expect(words(text)).toContain('5 of 8 labor hours free')
    expect(words(text)).toContain('Not a work day')
    expect(text).toContain('12 &lt;Fern&gt; Lane')
  })

  test('days with nothing booked fold together, and today stands by itself, marked', async () => {
    const { text } = await owner.get('/days').expect(200)
    const summaries = [...text.matchAll(/<summary>([^<]*)<\/summary>/g)].map(([, said]) => said)
    // Two work days of 8 hours; the Friday after the job, of which 5 are left, is booked.
    expect(summaries).toContain('Tue, Mar 3 to Wed, Mar 4: nothing booked, 16 labor hours free')
    expect(summaries).toContain('Sat, Mar 7 to Sun, Mar 15: nothing booked, 40 labor hours free')
    expect(summaries).toHaveLength(2)
    expect(text).toMatch(/id="day-2026-03-02" aria-current="date"/)
    expect(words(text)).toContain('Today Monday, March 2')
    expect(text.match(/aria-current="date"/g)).toHaveLength(1)
    const later = await owner.get('/days?from=2026-03-07').expect(200)
    expect(later.text).not.toContain('aria-current="date"')
    const weekend = await owner.get('/days?from=2026-02-28').expect(200)
    expect(words(weekend.text)).toContain('Sat, Feb 28 to Sun, Mar 1: not work days')
  })

  test('at a glance there are today and the next work days, with what is on them and a link to each', async () => {
    const { id } = await sendRequest(app)
    await setVisit(app.deps, 1, id, Temporal.Instant.from('2026-03-05T15:00:00Z'))
    const { text } = await owner.get('/days?from=2026-03-04').expect(200)
    const [, glance] = /<nav class="glance[^>]*>(.*?)<\/nav>/s.exec(text)!
    expect([...glance!.matchAll(/href="#([^"]+)"/g)].map(([, day]) => day)).toEqual([
      'day-2026-03-04',
      'day-2026-03-05',
      'day-2026-03-06',
    ])
    expect(words(glance!.replace(/<svg.*?<\/svg>/gs, ''))).toMatch(
      /Wed, Mar 4 Nothing booked Thu, Mar 5 1 visit, 1 job Fri, Mar 6 1 job/,
    )
    // From today, a Monday, on.
    const [, now] = /<nav class="glance[^>]*>(.*?)<\/nav>/s.exec((await owner.get('/days')).text)!
    expect(words(now!)).toMatch(/^ Today Nothing booked/)
    expect(now).toContain('href="#day-2026-03-02"')
  })

  test('visits and jobs stand in the order of the day', async () => {
    await app.db.updateTable('business').set({ half_days: true }).execute()
    const job = async (start: string) => {
      const { id, number } = await acceptedRequest(app, '1')
      await bookDay(app.deps, id, start)
      return number
    }
    const visit = async (hour: string) => {
      const { id, number } = await sendRequest(app)
      await setVisit(app.deps, 1, id, Temporal.Instant.from(`2026-03-19T${hour}:00Z`))
      return number
    }
    // In Chicago five hours before UTC: at two and at nine.
    const [whole, late, afternoon] = [
      await job('2026-03-19'),
      await visit('19:00'),
      await job('2026-03-19 pm'),
    ]
    const [morning, early] = [await job('2026-03-19 am'), await visit('14:00')]
    const { text } = await owner.get('/days?from=2026-03-19')
    const names = [...text.matchAll(/row-name">.*?(\d\d-\d{4})/g)].map(([, number]) => number)
    expect(names.slice(0, 5)).toEqual([early, morning, late, afternoon, whole])
    await app.db.updateTable('business').set({ half_days: false }).execute()
  })

  test('a fault in a folded day’s hours unfolds it', async () => {
    const { status, text } = await changeRoom(owner, '2026-03-10', 'many')
    expect(status).toBe(422)
    expect(text).toMatch(/<li class="days-empty">\s*<details open>/)
  })

  test('earlier and later, and what is no date is today', async () => {
    const later = await owner.get('/days?from=2026-03-16').expect(200)
    expect(later.text).toContain('/days?from=2026-03-30')
    expect(later.text).toContain('/days?from=2026-03-02')
    for (const from of ['x', '0000-01-01', '9999-12-31', '2026-02-30', '%00']) {
      const page = await owner.get(`/days?from=${from}`)
      expect([200, 400]).toContain(page.status)
      if (page.status === 200) expect(words(page.text)).toContain('Monday, March 2')
    }
  })

  test('a helper sees the work, with gate and dog, and no price, rate, margin or link to one', async () => {
    const { text } = await helper.get('/days').expect(200)
    for (const told of [number, 'Carol Reyes', 'Code 4711', 'Rex, friendly', '8 of 11 labor hours'])
      expect(text).toContain(told)
    expect(words(text)).not.toMatch(/[$€£]|\d\.\d\d\b|price|rate|margin|cost|total/i)
    expect(text).not.toMatch(/href="\/(queue|rates|outbox|settings)/)
    expect(text).not.toContain('/room"')
    const spanish = await helper.get('/days?language=es').expect(200)
    expect(words(spanish.text)).toContain('jueves, 5 de marzo')
    expect(words(spanish.text)).toContain('8 de 11 horas de trabajo')
    expect(words(spanish.text)).toContain(
      'Del mar, 3 de mar al mié, 4 de mar: nada reservado, 16 horas de trabajo',
    )
  })

  test('nobody else', async () => {
    const visitor = await app.browser().get('/days').expect(303)
    expect(visitor.headers.location).toMatch(/^\/sign-in/)
    await changeRoom(app.browser(), '2026-03-13', '4').expect(303)
    await changeRoom(helper, '2026-03-13', '4').expect(403)
    expect(await roomOf('2026-03-13')).toBeUndefined()
  })
})

describe("a day's room", () => {
  test('is changed, and changed again', async () => {
    await changeRoom(owner, '2026-03-10', '6,5').expect(303)
    expect(await roomOf('2026-03-10')).toBe('6.50')
    await changeRoom(owner, '2026-03-10', '10').expect(303)
    expect(await roomOf('2026-03-10')).toBe('10.00')
    // As the other tests find it.
    await changeRoom(owner, '2026-03-10', '8').expect(303)
  })

  test('is closed and opened', async () => {
    await changeRoom(owner, '2026-03-11', '0').expect(303)
    const { text } = await owner.get('/days').expect(200)
    expect(words(text)).toMatch(/Wednesday, March 11 Closed/)
    await changeRoom(owner, '2026-03-11', '8').expect(303)
    expect(await roomOf('2026-03-11')).toBe('8.00')
  })

  test('never below what is booked: the database refuses, and the page says so kindly', async () => {
    const refused = await changeRoom(owner, '2026-03-06', '2.99').expect(409)
    expect(refused.text).toContain('3 labor hours are already booked on Friday, March 6')
    expect(refused.text).toContain('value="2.99"')
    expect(await roomOf('2026-03-06')).toBe('8.00')
    await changeRoom(owner, '2026-03-06', '3').expect(303)
    expect(await roomOf('2026-03-06')).toBe('3.00')
    // As the other tests find it.
    await changeRoom(owner, '2026-03-06', '8').expect(303)
  })

  test('what can not be read, a day that is past or no work day', async () => {
    for (const typed of ['', 'eight', '-1', '1000', '1e2', '8.123'])
      await changeRoom(owner, '2026-03-12', typed).expect(422)
    for (const day of ['2026-02-27', '2026-03-07']) await changeRoom(owner, day, '8').expect(409)
    for (const day of ['2026-02-30', 'today']) await changeRoom(owner, day, '8').expect(404)
    expect(await roomOf('2026-03-12')).toBeUndefined()
  })
})
