import { afterAll, beforeAll, expect, test } from 'vitest'
import { acceptQuote } from '../../src/bookings/booking.ts'
import { Budget } from '../../src/limits/budget.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, offeredRequest, post, quotedRequest } from '../helpers/bookings.ts'
import { readPdf } from '../helpers/pdf.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { bedTold, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
/** For how many seconds who asks for a paper is told to wait. */
let waitFor = 0

beforeAll(async () => {
  const budget = Object.assign(new Budget(() => Temporal.Instant.from('2026-03-02T15:00:00Z')), {
    takeOwn: () => waitFor,
  })
  app = await testApp({ load: { budget } })
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const unescaped = (html: string) =>
  html.replace(/&#(\d+);|&amp;/g, (_, code) => (code ? String.fromCharCode(code) : '&'))
const wordsOf = (html: string) => unescaped(html.replace(/<[^>]*>/g, ' ')).replace(/\s+/g, ' ')
const amountsOf = (html: string) =>
  Array.from(html.matchAll(/<td class="amount">([^<]+)<\/td>/g), ([, amount]) =>
    unescaped(amount!).replace(/\s/g, ' '),
  )

async function pdfOf(browser: Browser, path: string) {
  const answer = await browser.get(path).responseType('blob').expect(200)
  expect(answer.headers['content-type']).toBe('application/pdf')
  expect(answer.headers['cache-control']).toBe('no-store')
  return readPdf(answer.body)
}

test.each(['en', 'es'])(
  'the paper says what the page says, amount by amount, behind both links and to the owner: %s',
  async language => {
    const { id, number, path } = await quotedRequest(app)
    const page = (await app.browser().get(`${path}?language=${language}`).expect(200)).text
    expect(page).toContain(`href="${path}/price.pdf"`)
    const reading = (await findLinkPath(app.db, app.deps.secretKey, 'reading', id))!
    const papers = [
      await pdfOf(app.browser(), `${path}/price.pdf?language=${language}`),
      await pdfOf(app.browser(), `${reading}/price.pdf?language=${language}`),
      await pdfOf(owner, `/queue/${number}/price.pdf?in=${language}`),
    ]
    const amounts = amountsOf(page)
    expect(amounts.length).toBeGreaterThan(1)
    for (const paper of papers) {
      expect(paper).toMatchObject({ language, isTagged: true })
      expect(paper.title).toContain(number)
      expect(paper.text.match(/\$[\d,]+\.\d\d/g)).toEqual(expect.arrayContaining(amounts))
      // Each line of the table, its words and its amount as they stand on the page.
      for (const [, row] of page.matchAll(/<tr>(<th scope="row">.*?)<\/tr>/g))
        expect(paper.text).toContain(wordsOf(row!).replace(/\s+/g, ' ').trim())
    }
    expect(new Set(papers.map(({ text }) => text)).size).toBe(1)
  },
)

test('what was accepted stands on it, with who, when and the digest', async () => {
  const { number, path } = await quotedRequest(app)
  const before = await pdfOf(owner, `/queue/${number}/price.pdf`)
  expect(before.text).not.toContain('SHA-256')
  await post(app, `${path}/accept`, acceptForm({ day: 'none' })).expect(303)
  const shown = (await app.browser().get(`${path}/accepted`)).text
  const paper = await pdfOf(app.browser(), `${path}/price.pdf`)
  const digest = /\b[0-9a-f]{64}\b/.exec(shown)![0]
  expect(paper.text.replaceAll(' ', '')).toContain(digest)
  expect(paper.text).toContain('Accepted by Carol Reyes')
  const text = (await app.browser().get(`${path}/accepted?revision=1`)).text
  expect(paper.text).toContain(text.split('\n\n').at(-1))
})

test('the choices stand on it as they were picked', async () => {
  const { path } = await offeredRequest(app)
  const asked = 'choose=yes&pick.0=1&add.0=yes'
  const page = (await app.browser().get(`${path}?${asked}`).expect(200)).text
  const total = amountsOf(page).at(-1)!
  const plain = await pdfOf(app.browser(), `${path}/price.pdf`)
  expect(plain.text).not.toContain(total)
  const picked = await pdfOf(app.browser(), `${path}/price.pdf?${asked}`)
  expect(picked.text).toContain(`Total ${total}`)
  expect(picked.text).toContain('Pine bark nuggets (in this price)')
  expect((await pdfOf(app.browser(), `${path}/price.pdf?picks=nonsense`)).text).toBe(plain.text)
})

test('a job of several stops stands there stop by stop, each with its subtotal and its beds', async () => {
  const beds = [bedTold({ stop: 0 }), bedTold({ stop: 1 })]
  const stops = ['North entrance', 'South entrance'].map(name => ({ name, spot: '', note: 'Gate code 12' }))
  const { path } = await quotedRequest(app, '3', { told: { ...told(...beds), stops } })
  const page = (await app.browser().get(path).expect(200)).text
  const { text } = await pdfOf(app.browser(), `${path}/price.pdf`)
  const subtotals = Array.from(
    page.matchAll(/<tr class="stop-row"><th scope="rowgroup">([^<]+)<\/th><td class="amount">([^<]+)</g),
  )
  expect(subtotals).toHaveLength(2)
  // A stop of one thing is one line, which says what it is.
  for (const [, name, subtotal] of subtotals)
    expect(text).toContain(`${name} Shredded hardwood mulch, delivered and spread ${subtotal}`)
  expect(text.match(/North entrance|South entrance/g)!.length).toBe(4)
  expect(text).not.toContain('Gate code')
})

test('a name in another script is marked where it can’t be set', async () => {
  const { path } = await quotedRequest(app, '3', { name: 'Nguyễn 王 🌿' })
  expect((await pdfOf(app.browser(), `${path}/price.pdf`)).text).toContain('Nguyễn □ □')
})

test('nobody has it without a link that stands', async () => {
  const { id, number, revision, path } = await quotedRequest(app)
  await app.browser().get('/b/nothing/price.pdf').expect(404)
  await app.browser().get('/p/nothing/price.pdf').expect(404)
  await app.browser().get(`/queue/${number}/price.pdf`).expect(303)
  await owner.get('/queue/none/price.pdf').expect(404)
  await app.browser().get(path.replace('/b/', '/p/').concat('/price.pdf')).expect(404)
  await acceptQuote(app.deps, id, { revision, typedName: 'Carol Reyes' })
  await pdfOf(app.browser(), `${path}/price.pdf`)
})

test('who asks for more than a network may is told to come back; the owner never is', async () => {
  const { number, path } = await quotedRequest(app)
  waitFor = 7
  try {
    const answer = await app.browser().get(`${path}/price.pdf`).expect(429)
    expect(answer.headers['retry-after']).toBe('7')
    await owner.get(`/queue/${number}/price.pdf`).expect(200)
  } finally {
    waitFor = 0
  }
})
