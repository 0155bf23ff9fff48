import { type Browser, type BrowserContext, chromium, type Locator, type Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import { CHROMIUM_ARGUMENTS, findChromium } from '../helpers/chromium.ts'
import { startService } from '../helpers/service.ts'

const PHONE = { width: 360, height: 740 }
/** To the range, and until it is sent; before shapes folded and beds began as the one before it was 15, 21 and seven screens. */
const MOST = { taps: 12, fields: 6, screens: 4, tapsUntilSent: 18 }

let service: Awaited<ReturnType<typeof startService>>
let browser: Browser
let context: BrowserContext
let page: Page

beforeAll(async () => {
  service = await startService()
  browser = await chromium.launch({ executablePath: findChromium()!, args: CHROMIUM_ARGUMENTS })
})

afterAll(async () => {
  await browser?.close()
  await service?.close()
})

afterEach(() => context.close())

async function open(how: NonNullable<Parameters<Browser['newContext']>[0]>): Promise<void> {
  context = await browser.newContext({ locale: 'en-US', ...how })
  page = await context.newPage()
}

const LENGTH = '#beds-0-sizes-length'
const BY_TOUCH = { viewport: PHONE, hasTouch: true, isMobile: true }

/**
 * A finger. A tap is each touch of the page itself: of a field, a choice, a fold, a button. Keys of the phone are typing and no taps;
 * scrolling isn't one either. A field is one that something is typed into.
 */
function finger(page: Page) {
  const typedInto = new Set<string>()
  let taps = 0
  return {
    count: () => ({ taps, fields: typedInto.size }),
    async tap(target: Locator) {
      await target.tap()
      taps += 1
    },
    /** Types where the caret is, which must be that field. */
    async type(field: string, text: string) {
      expect(await page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe(field)
      await page.keyboard.type(text)
      typedInto.add(field)
    },
  }
}

const choice = (page: Page, name: string, value: string) =>
  page.locator('label', { has: page.locator(`input[name="${name}"][value="${value}"]`) })

test('three beds on a phone take few taps, fields and screens until their range is there, and until it is sent', async () => {
  await open(BY_TOUCH)
  const { tap, type, count } = finger(page)
  const size = (bed: number, name: string) => page.locator(`[name="beds.${bed}.sizes.${name}"]`)
  await page.goto(service.address)

  // Each bed is of another shape; material, plants, old mulch and how it was measured are said once.
  await tap(choice(page, 'beds.0.shape', 'rectangle'))
  await type('beds.0.sizes.length', '60')
  await tap(size(0, 'width'))
  await type('beds.0.sizes.width', '12')
  await tap(choice(page, 'beds.0.finish', 'bark-nuggets'))
  await tap(choice(page, 'beds.0.planted', 'full'))
  await tap(choice(page, 'beds.0.lying', 'thin'))
  await tap(page.getByRole('button', { name: 'Add another bed' }))
  await page.waitForURL('**#bed-2')
  await tap(choice(page, 'beds.1.shape', 'oval'))
  await type('beds.1.sizes.length', '30')
  await tap(size(1, 'width'))
  await type('beds.1.sizes.width', '15')
  await tap(page.getByRole('button', { name: 'Add another bed' }))
  await page.waitForURL('**#bed-3')
  await tap(choice(page, 'beds.2.shape', 'triangle'))
  await type('beds.2.sizes.base', '20')
  await tap(size(2, 'height'))
  await type('beds.2.sizes.height', '14')
  await tap(choice(page, 'measuredBy', 'paces'))
  await page.locator('#go-on').waitFor({ state: 'visible' })
  await page.locator('#bed-3-drawing svg').waitFor({ state: 'visible' })

  const range = (await page.locator('#range .range-figure').textContent())!
  const height = await page.evaluate(() => document.documentElement.scrollHeight)
  const screens = height / PHONE.height
  const toRange = count()
  expect(page.url()).toContain('beds.2.finish=bark-nuggets&beds.2.planted=full&beds.2.lying=thin')

  await tap(page.getByRole('button', { name: 'Continue' }))
  await page.waitForURL('**/request?**')
  // Sent before the price with the whole ZIP is there, it would be shown once more.
  const priced = page.waitForResponse(answer => Boolean(answer.request().postData()?.includes('78701')))
  for (const [field, text] of [
    ['name', 'Carol Reyes'],
    ['phone', '512 555 0142'],
    ['street', '12 Fern Lane, Austin'],
    ['postcode', '78701'],
  ] as const) {
    await tap(page.locator(`#${field}`))
    await type(field, text)
  }
  // What coming there costs is shown as the ZIP is typed, so that it needn't be shown first and sent once more.
  await (await priced).finished()
  await page.locator('#contact-figure', { hasNotText: range }).waitFor()
  await tap(page.getByRole('button', { name: 'Send' }))
  await page.waitForURL('**/r/**')
  const untilSent = count().taps

  console.log(
    `three beds: ${toRange.taps} taps and ${toRange.fields} fields to the range, ${screens.toFixed(2)} screens, ${untilSent} taps until sent`,
  )
  expect(toRange.taps).toBeLessThanOrEqual(MOST.taps)
  expect(toRange.fields).toBeLessThanOrEqual(MOST.fields)
  expect(screens).toBeLessThanOrEqual(MOST.screens)
  expect(untilSent).toBeLessThanOrEqual(MOST.tapsUntilSent)
})

test('a link with a material gives way to beds that were begun, and to nothing less', async () => {
  await open({})
  const picked = () => page.locator('[name="beds.0.finish"]:checked').inputValue()
  await page.goto(service.address)
  await page.locator('[name="beds.0.finish"][value=compost]').check()
  await page.waitForURL('**beds.0.finish=compost**')
  await page.goto(`${service.address}/?material=stone`)
  expect(await picked()).toBe('stone')
  await page.fill(LENGTH, '20')
  await page.waitForURL('**beds.0.sizes.length=20**')
  await page.goto(`${service.address}/?material=compost`)
  await page.waitForURL('**/?beds.0**')
  expect(await picked()).toBe('stone')
  expect(await page.locator(LENGTH).inputValue()).toBe('20')
})

test('the names of who sends are sent nowhere while the ZIP is typed', async () => {
  await open({})
  await page.goto(
    `${service.address}/request?beds.0.shape=rectangle&beds.0.sizes.length=20&beds.0.sizes.width=5`,
  )
  await page.fill('#name', 'Carol Reyes')
  const asked = page.waitForRequest('**/ballpark')
  await page.fill('#postcode', '99999')
  const sent = (await asked).postData()!
  expect(sent).toContain('postcode=99999')
  expect(sent).toContain('beds.0.sizes.length=20')
  expect(sent).not.toMatch(/Carol|name=|submissionKey|street/)
  await page.getByText('We don’t usually work in this ZIP code.').waitFor()
})

test('on a phone a size has digits, with the signs they lack beside it, and letters for who wants them', async () => {
  await open(BY_TOUCH)
  await page.goto(service.address)
  expect(await page.locator('#bed-1 .size-keys').isVisible()).toBe(false)
  const keypad = () => page.locator(LENGTH).getAttribute('inputmode')
  expect(await keypad()).toBe('decimal')
  await page.locator(LENGTH).tap()
  await page.keyboard.type('12')
  await page.getByRole('button', { name: 'feet' }).tap()
  await page.keyboard.type('6')
  await page.getByRole('button', { name: 'inches' }).tap()
  expect(await page.locator(LENGTH).inputValue()).toBe(`12'6"`)
  await page.locator(`${LENGTH}-echo`, { hasText: '= 12 ft 6 in' }).waitFor()
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('beds-0-sizes-length')
  await page.getByRole('button', { name: 'Letters' }).tap()
  expect(await keypad()).toBe('text')
})

test('from 900 px the bed that is typed and the range stay in sight while one scrolls', async () => {
  await open({ viewport: { width: 900, height: 600 } })
  await page.goto(service.address)
  await page.fill(LENGTH, '60')
  await page.fill('#beds-0-sizes-width', '20')
  await page.locator('#range .range-figure').waitFor()
  const inSight = (selector: string) =>
    page.locator(selector).evaluate(element => {
      const { top, bottom, left } = element.getBoundingClientRect()
      return top >= 0 && bottom <= window.innerHeight && left > window.innerWidth / 2
    })
  for (const field of ['[name="beds.0.planted"]', '[name="beds.0.lying"]']) {
    await page.locator(field).last().scrollIntoViewIfNeeded()
    expect([field, await inSight('#range-strip'), await inSight('#bed-1-drawing svg')]).toEqual([
      field,
      true,
      true,
    ])
  }
  await page.locator('#postcode').scrollIntoViewIfNeeded()
  // The strip gives way to the range itself, where that is on the screen.
  const rangeInSight = () =>
    page.locator('#range .range-figure').evaluate(element => {
      const { top, bottom } = element.getBoundingClientRect()
      return top >= 0 && bottom <= window.innerHeight
    })
  await expect.poll(async () => (await inSight('#range-strip')) || (await rangeInSight())).toBe(true)
})
