import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { findChromium } from '../helpers/chromium.ts'
import { startService } from '../helpers/service.ts'

let service: Awaited<ReturnType<typeof startService>>
let browser: Browser
let context: BrowserContext
let page: Page
let faults: string[]

beforeAll(async () => {
  service = await startService()
  browser = await chromium.launch({
    executablePath: findChromium()!,
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'],
  })
})

afterAll(async () => {
  await browser?.close()
  await service?.close()
})

beforeEach(async () => {
  context = await browser.newContext({ viewport: { width: 320, height: 640 }, locale: 'en-US' })
  page = await newPage()
})

afterEach(async () => {
  await context.close()
  expect(faults).toEqual([])
})

async function newPage(): Promise<Page> {
  const opened = await context.newPage()
  faults = []
  opened.on('pageerror', error => faults.push(error.message))
  return opened
}

const LENGTH = '#beds-0-sizes-length'
const WIDTH = '#beds-0-sizes-width'
const figure = () => page.locator('#range .range-figure')
const untilSeen = (selector: string) => page.locator(selector).waitFor({ state: 'visible' })

test('the range, the drawing and what was understood follow the typing, and the caret stays', async () => {
  await page.goto(service.address)
  await page.locator(LENGTH).pressSequentially(`60' 6"`)
  await page.locator(WIDTH).pressSequentially('20')
  await untilSeen('#range .range-figure')
  expect(await page.locator(`${LENGTH}-echo`).textContent()).toBe('= 60 ft 6 in')
  expect(await page.locator('#bed-1-drawing svg title').textContent()).toBe('Rectangle, 60 ft 6 in × 20 ft')
  const before = await figure().textContent()
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.type('1')
  await page.locator('#range .range-figure', { hasNotText: before! }).waitFor()
  expect(await page.locator(WIDTH).inputValue()).toBe('210')
  expect(await page.evaluate(`document.activeElement.id + ' ' + document.activeElement.selectionStart`)).toBe(
    'beds-0-sizes-width 2',
  )
  expect(page.url()).toContain('beds.0.sizes.width=210')
})

test('what can’t be read yet is said quietly, and the range goes', async () => {
  await page.goto(service.address)
  await page.fill(LENGTH, '20x5')
  await untilSeen('#range .range-figure')
  await page.fill(LENGTH, 'plenty')
  await page.locator('#range').waitFor({ state: 'hidden' })
  expect(await page.locator(`${LENGTH}-echo`).textContent()).toBe('can’t read this yet')
  expect(await page.locator('.error').count()).toBe(0)
})

test('a screen reader hears the range once when the typing rests, not at every key', async () => {
  await page.goto(service.address)
  await page.evaluate(`
    window.heard = []
    new MutationObserver(() => heard.push(document.getElementById('range-said').textContent))
      .observe(document.getElementById('range-said'), { childList: true, characterData: true, subtree: true })`)
  await page.locator(LENGTH).pressSequentially('60x20 ft', { delay: 120 })
  await page.locator('#range-said', { hasText: '$' }).waitFor({ state: 'attached' })
  const heard = (await page.evaluate('heard')) as string[]
  expect(heard).toHaveLength(1)
  expect(heard[0]).toMatch(/^\$[\d,]+ to \$[\d,]+, most likely \$[\d,]+$/)
})

test('an answer that comes late never overwrites a newer one', async () => {
  await page.goto(service.address)
  const release = Promise.withResolvers<void>()
  let asked = 0
  await page.route('**/ballpark', async route => {
    asked += 1
    if (asked === 1) await release.promise
    await route.continue().catch(() => {})
  })
  await page.fill(LENGTH, '20x5')
  await page.waitForRequest('**/ballpark')
  const late = page.waitForEvent('requestfailed')
  await page.fill(LENGTH, '30x5')
  await untilSeen('#range .range-figure')
  await late
  release.resolve()
  expect(await page.locator(`${LENGTH}-echo`).textContent()).toBe('= 30 ft × 5 ft')
})

test('away from the network nothing is lost, and the next tab has it again', async () => {
  await page.goto(service.address)
  await context.setOffline(true)
  await page.fill(LENGTH, '33 ft')
  await untilSeen('#offline')
  await page.fill(WIDTH, '7 ft')
  await page.waitForURL('**beds.0.sizes.width=7**')
  await context.setOffline(false)
  await page.locator('#offline').waitFor({ state: 'hidden' })
  await untilSeen('#range .range-figure')
  await page.close()

  page = await newPage()
  await page.goto(service.address)
  await page.waitForURL('**/?beds.0**')
  expect(await page.locator(LENGTH).inputValue()).toBe('33 ft')
  await untilSeen('#kept')
  await page.locator('#kept a').click()
  await page.waitForURL(`${service.address}/`)
  expect(await page.locator(LENGTH).inputValue()).toBe('')
})

/** As when another tab is looked at, or this one again. */
const pageHidden = (hidden: boolean) =>
  page.evaluate(is => {
    Object.defineProperty(document, 'hidden', { configurable: true, get: () => is })
    document.dispatchEvent(new Event('visibilitychange'))
  }, hidden)

test('told to come back later, the page says so quietly, keeps what was typed, and asks again then', async () => {
  await page.clock.install()
  await page.goto(service.address)
  let asked = 0
  await page.route('**/ballpark', route => {
    asked += 1
    if (asked > 1) return route.continue()
    return route.fulfill({ status: 429, headers: { 'retry-after': '30' }, body: '' })
  })
  await page.fill(LENGTH, '20x5')
  await page.clock.runFor(300)
  await untilSeen('#busy')
  expect(await page.locator('#range').isHidden()).toBe(true)
  await page.clock.runFor(29_000)
  expect(asked).toBe(1)
  await pageHidden(true)
  await page.clock.runFor(60_000)
  // Whatever was asked before this was seen by then.
  await page.evaluate(async () => (await fetch('/livez')).text())
  expect(asked).toBe(1)
  await pageHidden(false)
  await untilSeen('#range .range-figure')
  expect(await page.locator('#busy').isHidden()).toBe(true)
  expect(await page.locator(LENGTH).inputValue()).toBe('20x5')
})

test('the strip stands at the bottom only while the range itself is out of sight', async () => {
  await page.goto(service.address)
  await page.fill(LENGTH, '60x20')
  await untilSeen('#range-strip')
  await page.locator('#range-strip a').click()
  await page.locator('#range-strip').waitFor({ state: 'hidden' })
})

test('name and address survive a locked phone, and are forgotten once sent', async () => {
  await page.goto(service.address)
  await page.fill(LENGTH, '60x20')
  await untilSeen('#go-on button')
  await page.locator('#go-on button').click()
  await page.fill('#name', 'Carol Reyes')
  await page.fill('#phone', '512 555 0177')
  await page.fill('#note', 'By the porch')
  const address = page.url()
  await page.close()

  page = await newPage()
  await page.goto(address)
  expect(await page.locator('#name').inputValue()).toBe('Carol Reyes')
  expect(await page.locator('#note').inputValue()).toBe('By the porch')
  await page.fill('#street', '12 Fern Lane')
  await page.fill('#postcode', '78701')
  // The ZIP brings travel with it, which is shown before anything is sent.
  await page.locator('#contact-shown [value="78701"]').waitFor({ state: 'attached' })
  await page.locator('form button[type=submit]').click()
  await page.waitForURL('**/r/*')
  expect(await page.evaluate('Object.keys(localStorage)')).toEqual([])
  await page.goto(service.address)
  expect(await page.locator(LENGTH).inputValue()).toBe('')
})

test('the other reading is one tap away, and the page stays', async () => {
  await page.goto(service.address)
  await page.fill(LENGTH, '12-6')
  await page.locator(`${LENGTH}-instead button`).click()
  await page.locator(`${LENGTH}-echo`, { hasText: '= 9 ft ± 3 ft' }).waitFor()
  expect(await page.locator(LENGTH).inputValue()).toBe('6 ft - 12 ft')
  expect(await page.locator(`${LENGTH}-instead button`).count()).toBe(0)
  expect(await page.evaluate('document.activeElement.id')).toBe('beds-0-sizes-length')
})
