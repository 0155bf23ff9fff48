import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { acceptQuote } from '../../src/bookings/booking.ts'
import { mailto, sms } from '../../src/lib/contact-links.ts'
import { confirmAddress } from '../../src/requests/confirm-address.ts'
import { findByToken } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

// 81 ft³ is 3 yd³, at 90 in the middle: 270.00.
const THREE_YARDS = told(bedTold({ sizes: { length: '27 ft', width: '12 ft' } }))

async function quoted(instead: Parameters<typeof sendRequest>[1] = {}) {
  const { number } = await sendRequest(app, { told: THREE_YARDS, ...instead })
  const { id, bookingPath } = await quoteRequest(app, number)
  return { number, id, bookingPath, token: bookingPath.split('/').at(-1)! }
}

function opens(token: string) {
  return findByToken(app.db, 'booking', token, app.deps.now())
}

describe('handing the booking link over', () => {
  it('shows the whole address, a text with price and date, and links for mail and text message', async () => {
    const { number, id, bookingPath, token } = await quoted()
    expect(await opens(token)).toBe(id)
    const page = await owner.get(`/queue/${number}/hand-over`).expect(200)
    const address = `http://localhost:8080${bookingPath}`
    expect(page.text).toContain(`value="${address}"`)
    const [, words] = /<textarea[^>]*>([\s\S]*?)<\/textarea>/.exec(page.text)!
    expect(words).toContain('$270.00')
    expect(words).toContain('Wednesday, April 1')
    expect(words).toContain(address)
    expect(page.text).toContain(
      'href="mailto:carol@example.com?subject=Your%20price%20from%20Fern%20Beds&amp;body=Hello',
    )
    expect(page.text).toContain('href="sms:5550100199?body=Hello%20Carol%20Reyes')
  })

  it('has nothing to send of what was accepted', async () => {
    const { number, id } = await quoted({ name: 'Ana Accepted' })
    await acceptQuote(app.deps, id, { revision: 1, typedName: 'Ana Accepted' })
    const { text } = await owner.get(`/queue/${number}/hand-over`).expect(200)
    expect(text).toContain('They accepted this quote, so there’s nothing to send.')
    expect(text).not.toMatch(/<textarea|I sent it/)
    expect(text).toContain('Booking link')
  })

  it('notes once that the owner sent the link, and the queue says so', async () => {
    const { number, id } = await quoted({ name: 'Lin Linked' })
    const sent = (revision: string) =>
      owner.post(`/queue/${number}/booking-link/sent`).type('form').send({ revision })
    await sent('2').expect(409)
    await sent('1').expect(303)
    await sent('1').expect(303)
    expect((await owner.get(`/queue/${number}/hand-over`)).text).toContain('You sent it yourself Mon, Mar 2')
    const rows = await app.db
      .selectFrom('history')
      .select('verb')
      .where('quote_request_id', '=', id)
      .where('verb', '=', 'link sent')
      .execute()
    expect(rows).toHaveLength(1)
    expect((await owner.get('/queue?q=Lin+Linked')).text).toContain(
      'link sent Mon, Mar 2, not read yet; 30 days left',
    )
  })

  it('greets nobody by a name that was typed in a mail to an address that isn’t confirmed', async () => {
    for (const [language, greeting] of [
      ['en', 'Hello, '],
      ['es', 'Hola: '],
    ] as const) {
      const { number, id, bookingPath } = await quoted({ language, name: 'Seekmenot Inc.' })
      const body = async () => {
        const page = await owner.get(`/queue/${number}/hand-over`)
        const [, address = ''] = /href="(mailto:[^"]*)"/.exec(page.text)!
        return new URL(address.replaceAll('&amp;', '&')).searchParams.get('body')
      }
      const unconfirmed = await body()
      expect(unconfirmed).not.toContain('Seekmenot')
      expect(unconfirmed).toMatch(new RegExp(`^${greeting}.*270[.,]00.*${bookingPath}`))
      await confirmAddress(app.deps, id)
      expect(await body()).toContain('Seekmenot Inc.')
    }
  })

  it('says that a mail goes out only where a mail server is set', async () => {
    const { number } = await quoted()
    const address = `/queue/${number}/hand-over`
    expect((await owner.get(address)).text).not.toContain('goes out automatically')
    const { config } = app.deps
    app.deps.config = { ...config, smtpUrl: 'smtp://mail.example' }
    expect((await owner.get(address)).text).toContain('goes out automatically')
    app.deps.config = config
  })

  it('writes in the homeowner’s language', async () => {
    const { number } = await quoted({ language: 'es' })
    const page = await owner.get(`/queue/${number}/hand-over`)
    expect(page.text).toMatch(/<textarea[^>]*lang="es"[^>]*>Hola, Carol Reyes/)
    expect(page.text).toContain('miércoles, 1 de abril')
  })

  it('offers only the ways that there are', async () => {
    const { number } = await quoted({ email: '' })
    const page = await owner.get(`/queue/${number}/hand-over`)
    expect(page.text).not.toContain('href="mailto:?')
    expect(page.text).not.toContain('Write an email')
    expect(page.text).toContain('href="sms:')
  })

  it('ends the link, twice without harm, and makes a new one', async () => {
    const { number, id, token } = await quoted()
    for (const _ of [1, 2]) await owner.post(`/queue/${number}/booking-link/end`).expect(303)
    expect(await opens(token)).toBeUndefined()
    const ended = await owner.get(`/queue/${number}/hand-over`)
    expect(ended.text).toContain('The booking link is turned off')
    await owner.post(`/queue/${number}/booking-link`).expect(303)
    const again = await owner.get(`/queue/${number}/hand-over`)
    const [, fresh] = /value="http:\/\/localhost:8080\/b\/([\w-]+)"/.exec(again.text)!
    expect(fresh).not.toBe(token)
    expect(await opens(fresh!)).toBe(id)
    const request = await owner.get(`/queue/${number}`)
    expect(request.text.match(/Booking link turned off/g)).toHaveLength(1)
  })

  it('replaces the link that the page shows, and no newer one', async () => {
    const { number, id } = await quoted()
    const shown = async () => {
      const { text } = await owner.get(`/queue/${number}/hand-over`)
      const [, standing] = /name="standing" value="(\d*)"/.exec(text)!
      return { standing, address: /value="http:[^"]*\/b\/([\w-]+)"/.exec(text)?.[1] }
    }
    const { standing } = await shown()
    const replace = () => owner.post(`/queue/${number}/booking-link`).type('form').send({ standing })
    await replace().expect(303)
    const { address } = await shown()
    await replace().expect(303)
    expect((await shown()).address).toBe(address)
    expect(await opens(address!)).toBe(id)
    expect((await owner.get(`/queue/${number}`)).text.match(/New booking link made/g)).toHaveLength(1)
  })

  it('is nothing before there is a quote', async () => {
    const { number } = await sendRequest(app)
    await owner.get(`/queue/${number}/hand-over`).expect(409)
    await owner.post(`/queue/${number}/booking-link`).expect(409)
  })

  it('is the owner’s alone', async () => {
    const { number, id, token } = await quoted()
    const hugo = await helperBrowser(app)
    await expectOwnerOnly(app, hugo, 'get', `/queue/${number}/hand-over`)
    await expectOwnerOnly(app, hugo, 'post', `/queue/${number}/booking-link`)
    await expectOwnerOnly(app, hugo, 'post', `/queue/${number}/booking-link/end`)
    expect(await opens(token)).toBe(id)
  })
})

describe('links that open another program', () => {
  it('encode all that could be taken for something else', () => {
    const link = mailto('a+b@example.com', 'Price & day?', 'Line one\nLine two, 100%')
    expect(link).toBe(
      'mailto:a%2Bb@example.com?subject=Price%20%26%20day%3F&body=Line%20one%0D%0ALine%20two%2C%20100%25',
    )
    expect(sms('+1 (512) 555-0177', 'a&b')).toBe('sms:+15125550177?body=a%26b')
    expect(mailto('', 's', 'b')).toBeNull()
    expect(sms('none', 'b')).toBeNull()
  })
})
