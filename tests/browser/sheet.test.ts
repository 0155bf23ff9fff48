import { randomUUID } from 'node:crypto'
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { CHROMIUM_ARGUMENTS, findChromium } from '../helpers/chromium.ts'
import { ALICE } from '../helpers/people.ts'
import { CAROL } from '../helpers/request-form.ts'
import { startService } from '../helpers/service.ts'

const LENGTH = '#beds-0-sizes-length'
const WIDTH = '#beds-0-sizes-width'
const BED = {
  'beds.0.shape': 'rectangle',
  'beds.0.sizes.length': 'about 20',
  'beds.0.sizes.width': '5',
  'beds.0.finish': 'shredded-wood',
  measuredBy: 'eye',
}

let service: Awaited<ReturnType<typeof startService>>
let browser: Browser
let context: BrowserContext
let page: Page
let faults: string[]
let requests = 0

beforeAll(async () => {
  service = await startService()
  browser = await chromium.launch({ executablePath: findChromium()!, args: CHROMIUM_ARGUMENTS })
})

afterAll(async () => {
  await browser?.close()
  await service?.close()
})

beforeEach(async () => {
  context = await browser.newContext({
    viewport: { width: 320, height: 640 },
    locale: 'en-US',
    hasTouch: true,
    isMobile: true,
  })
  page = await context.newPage()
  faults = []
  page.on('pageerror', error => faults.push(error.message))
  await openSheet()
})

afterEach(async () => {
  await context.close()
  expect(faults).toEqual([])
})

/** Sends a request of one bed, sets a visit for it, and opens the sheet as the owner. */
async function openSheet(): Promise<void> {
  requests += 1
  const street = `${requests} Sheet Street`
  await send('/requests', { ...BED, ...CAROL, street, submissionKey: randomUUID() })
  await send('/sign-in', { email: ALICE.email, password: ALICE.password })
  await page.goto(`${service.address}/queue?q=${encodeURIComponent(street)}`)
  await page.locator('.row', { hasText: street }).locator('.row-name a').click()
  // A day of its own, as two visits at once would be told.
  const day = Temporal.Now.plainDateISO().add({ days: requests }).toString()
  await page.locator('#visit-date').fill(day)
  await page.locator('#visit-time').fill('09:30')
  await page.getByRole('button', { name: 'Set the visit' }).click()
  await page.getByRole('link', { name: 'Measure the beds' }).click()
  await page.locator(LENGTH).waitFor()
}

async function send(path: string, form: Record<string, string>): Promise<void> {
  const headers = { origin: service.address }
  const answer = await context.request.post(service.address + path, { form, headers, maxRedirects: 0 })
  expect(answer.status()).toBe(303)
}

const save = () => page.getByRole('button', { name: 'Save the measurements' }).click()

test('what was understood, the drawing and the sums follow the typing', async () => {
  expect(await page.locator('#bed-1-drawing figcaption').textContent()).toBe('As the homeowner described it')
  await page.locator(LENGTH).fill(`21' 4"`)
  await page.locator(WIDTH).fill('6')
  await page.locator('#bed-1-drawing', { hasText: 'As measured' }).waitFor()
  expect(await page.locator(`${LENGTH}-echo`).textContent()).toBe('= 21 ft 4 in')
  expect(await page.locator('#bed-1-drawing svg title').textContent()).toBe('Rectangle, 21 ft 4 in × 6 ft')
  // 21 ft 4 in by 6 ft are 128 square feet.
  expect(await page.locator('#sums').textContent()).toContain('128 square feet')
  await page.locator(WIDTH).fill('wide')
  await page.locator(`${WIDTH}-echo`, { hasText: 'can’t read this yet' }).waitFor()
  expect(await page.locator('#sums').isVisible()).toBe(false)
  await page.locator(WIDTH).fill('7')
  await page.locator('#beds-0-drop').check()
  await page.locator('#bed-1-drawing', { hasText: 'As the homeowner described it' }).waitFor()
})

test('without a signal it is kept, added beds too, and is back after the page was thrown away', async () => {
  await context.setOffline(true)
  await page.locator(LENGTH).fill('31')
  await page.locator(WIDTH).fill('8')
  await page.getByRole('button', { name: 'Add a bed' }).click()
  await page.locator('#bed-2 summary', { hasText: 'Shape' }).waitFor()
  await page.locator('#bed-2 input[value="circle"]').check()
  await page.locator('#beds-1-sizes-diameter').fill('6')
  await save()
  await page.locator('#not-saved').waitFor({ state: 'visible' })
  expect(await page.locator(LENGTH).inputValue()).toBe('31')

  const address = page.url()
  await page.close()
  await context.setOffline(false)
  page = await context.newPage()
  await page.goto(address)
  await page.locator('#kept').waitFor({ state: 'visible' })
  expect(await page.locator(LENGTH).inputValue()).toBe('31')
  expect(await page.locator('#bed-2 input[value="circle"]').isChecked()).toBe(true)
  expect(await page.locator('#beds-1-sizes-diameter').inputValue()).toBe('6')
  await page.locator('#bed-2-drawing', { hasText: 'As measured' }).waitFor()

  await save()
  await page.getByText('The measurements are saved.').waitFor()
  expect(await page.evaluate('Object.keys(localStorage)')).toEqual([])
  await page.goto(address)
  expect(await page.locator('#kept').isVisible()).toBe(false)
  expect(await page.locator('#beds-1-sizes-diameter').inputValue()).toBe('6')
})

test('a refused save shows each fault beside its field, and what is kept goes on', async () => {
  await page.locator(LENGTH).fill('31')
  await save()
  await page.locator(`${WIDTH}-error`).waitFor()
  expect(await page.title()).toMatch(/^Error: /)
  expect(await page.evaluate('document.activeElement.className')).toBe('errors')
  await page.locator(WIDTH).fill('9')
  await page.locator('#bed-1-drawing', { hasText: 'As measured' }).waitFor()
  await page.reload()
  await page.locator('#kept').waitFor({ state: 'visible' })
  expect(await page.locator(WIDTH).inputValue()).toBe('9')
  await page.getByRole('link', { name: 'Start over' }).click()
  await page.waitForURL('**/measure')
  await page.locator(`${LENGTH}[value=""]`).waitFor()
  expect(await page.locator('#kept').isVisible()).toBe(false)
})

test('whoever was signed out meanwhile is told, loses nothing, and saves after signing in', async () => {
  await page.locator(LENGTH).fill('31')
  await page.locator(WIDTH).fill('8')
  await context.clearCookies()
  await save()
  await page.locator('#signed-out').waitFor({ state: 'visible' })
  await page.getByRole('link', { name: 'Sign in' }).click()
  await page.locator('#email').fill(ALICE.email)
  await page.locator('#password').fill(ALICE.password)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await page.locator('#kept').waitFor({ state: 'visible' })
  expect(await page.locator(WIDTH).inputValue()).toBe('8')
  await save()
  await page.getByText('The measurements are saved.').waitFor()
})

test('a length has a number keypad, and the signs of feet and inches within reach of a thumb', async () => {
  expect(await page.locator(LENGTH).getAttribute('inputmode')).toBe('decimal')
  await page.locator(LENGTH).tap()
  await page.keyboard.type('12')
  await page.getByRole('button', { name: 'feet' }).tap()
  await page.keyboard.type('6')
  expect(await page.locator(LENGTH).inputValue()).toBe(`12'6`)
  await page.locator(`${LENGTH}-echo`, { hasText: '= 12 ft 6 in' }).waitFor()
  expect(await page.evaluate('document.activeElement.id')).toBe('beds-0-sizes-length')
})
