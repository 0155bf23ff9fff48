import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { type Browser, chromium } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { CHROMIUM_ARGUMENTS, findChromium } from '../helpers/chromium.ts'
import { ALICE } from '../helpers/people.ts'
import { startService } from '../helpers/service.ts'
import { startWalker, type Walker } from '../helpers/walker.ts'

const SHOTS = process.env.SHOTS_DIR

let service: Awaited<ReturnType<typeof startService>>
let browser: Browser

beforeAll(async () => {
  service = await startService()
  browser = await chromium.launch({ executablePath: findChromium()!, args: CHROMIUM_ARGUMENTS })
})

afterAll(async () => {
  await browser?.close()
  await service?.close()
})

test.each([
  { scripts: true, name: 'with scripts' },
  { scripts: false, name: 'without scripts' },
])(
  'the whole job, from the homeowner’s form to the day, by keyboard at 320 px, $name',
  async ({ scripts }) => {
    const shots = SHOTS && join(SHOTS, scripts ? 'with-scripts' : 'without-scripts')
    if (shots) mkdirSync(shots, { recursive: true })
    const homeowner = await startWalker(browser, { scripts, shots })
    const staff = await startWalker(browser, { scripts, shots })

    const { number, range } = await sendRequest(homeowner, scripts)
    await signIn(staff)
    await arrangeVisit(staff, number)
    await measure(staff)
    const { total, link } = await quote(staff)
    expect(range).toMatch(/^\$[\d,]+ to \$[\d,]+$/)

    const day = await acceptAndBook(homeowner, link, total)
    await staff.open(`${service.address}/days`)
    await staff.look('19-days')
    const booked = staff.page.locator('li', { hasText: day }).filter({ hasText: number })
    expect(await booked.count()).toBe(1)

    await homeowner.close()
    await staff.close()
    expect([...homeowner.faults, ...staff.faults]).toEqual([])
    const log = service.log.join('')
    expect(log).toContain('"route":"/b/:token/accept"')
    const typed = [
      'Carol',
      'Reyes',
      '555-0142',
      '5550142',
      'carol@',
      'Fern Lane',
      ALICE.email,
      link.split('/').at(-1)!,
    ]
    expect(typed.filter(secret => log.includes(secret))).toEqual([])
  },
)

async function sendRequest(walker: Walker, scripts: boolean) {
  const { page } = walker
  await walker.open(service.address)
  await walker.look('01-form')
  await walker.type(page.locator('#beds-0-sizes-length'), `32' 6"`)
  await walker.type(page.locator('#beds-0-sizes-width'), '8 ft')
  await walker.pick('beds.0.finish', 'bark-nuggets')
  await walker.pick('beds.0.lying', 'thin')
  await walker.pick('measuredBy', 'paces')
  if (!scripts) await walker.press(page.locator('.actions button[value=range]'))
  const figure = page.locator('#range .range-figure')
  await figure.waitFor({ state: 'visible' })
  expect(await page.locator('#beds-0-sizes-length-echo').textContent()).toBe('= 32 ft 6 in')
  await walker.look('02-range')
  await walker.picture('readme-range', page.locator('#range'))
  const range = (await figure.textContent())!.trim()
  await walker.press(page.locator('button[value=go-on]'))
  await walker.press(page.getByRole('button', { name: 'Send' }))
  await walker.look('03-contact-refused')
  expect(await page.title()).toMatch(/^Error: /)
  await walker.type(page.locator('#name'), 'Carol Reyes')
  await walker.type(page.locator('#phone'), '(512) 555-0142')
  await walker.type(page.locator('#email'), 'carol@example.com')
  await walker.type(page.locator('#street'), '12 Fern Lane')
  await walker.type(page.locator('#postcode'), '78701')
  await walker.look('04-contact')
  await walker.press(page.getByRole('button', { name: 'Send' }))
  if (!page.url().includes('/r/')) {
    // The ZIP brings travel with it, so the range is shown once more before anything is taken in.
    await walker.look('05-contact-with-travel')
    await walker.press(page.getByRole('button', { name: 'Send' }))
  }
  await page.waitForURL('**/r/**')
  await walker.look('06-own-page')
  const number = /\d\d-\d{4}/.exec((await page.locator('main').textContent())!)![0]
  return { number, range }
}

async function signIn(walker: Walker): Promise<void> {
  const { page } = walker
  await walker.open(`${service.address}/queue`)
  await walker.look('07-sign-in')
  await walker.type(page.locator('#email'), ALICE.email)
  await walker.type(page.locator('#password'), ALICE.password)
  await walker.press(page.getByRole('button', { name: 'Sign in' }))
  await page.waitForURL('**/queue')
  await walker.look('08-queue')
}

async function arrangeVisit(walker: Walker, number: string): Promise<void> {
  const { page } = walker
  const row = page.locator('.row', { hasText: number })
  await walker.press(row.locator('.row-name').getByRole('link'))
  await page.waitForURL(`**/queue/${number}`)
  await walker.look('09-request')
  const tomorrow = Temporal.Now.plainDateISO().add({ days: 1 }).toString()
  // A date field is typed piece by piece in the reader's own order; only its value counts here.
  await page.locator('#visit-date').fill(tomorrow)
  await page.locator('#visit-time').fill('09:30')
  await walker.press(page.getByRole('button', { name: 'Set the visit' }))
  await walker.look('10-visit-set')
}

async function measure(walker: Walker): Promise<void> {
  const { page } = walker
  await walker.press(page.getByRole('link', { name: 'Measure the beds' }))
  await walker.type(page.locator('#beds-0-sizes-length'), '33 ft')
  await walker.type(page.locator('#beds-0-sizes-width'), `8' 3"`)
  await walker.look('11-measure')
  await walker.press(page.getByRole('button', { name: 'Save the measurements' }))
  await walker.look('12-measured')
}

async function quote(walker: Walker): Promise<{ total: string; link: string }> {
  const { page } = walker
  await walker.press(page.getByRole('link', { name: 'Price it' }))
  await walker.look('13-price')
  await walker.picture('readme-price', page.locator('main h1'))
  await walker.press(page.getByRole('button', { name: 'Make the quote' }))
  await page.waitForURL('**/hand-over')
  await walker.look('14-hand-over')
  const total = (await page.locator('.lead .figure').textContent())!.trim()
  return { total, link: await page.locator('#address').inputValue() }
}

async function acceptAndBook(walker: Walker, link: string, total: string): Promise<string> {
  const { page } = walker
  await walker.open(link)
  expect((await page.locator('.range-figure').textContent())!.trim()).toBe(total)
  await walker.look('15-booking-link')
  await walker.picture('readme-booking', page.locator('main h1'))
  await walker.press(page.getByRole('link', { name: 'Accept' }))
  await walker.look('16-accept')
  await walker.type(page.locator('#typedName'), 'Carol Reyes')
  await walker.press(page.locator('#read'))
  const day = (await page.locator('input[type=radio][name=day]').first().getAttribute('value'))!
  await walker.pick('day', day)
  const label = page.locator('label', { has: page.locator(`[value="${day}"]`) })
  const words = (await label.locator('.choice-text').textContent())!.trim()
  await walker.press(page.locator('main form .actions button').first())
  await walker.look('17-check')
  await walker.press(page.locator('main form .actions button').first())
  await walker.look('18-booked')
  return words
}
