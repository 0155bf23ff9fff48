import { type Browser, chromium, type Locator, type Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { CHROMIUM_ARGUMENTS, findChromium } from '../helpers/chromium.ts'
import { startService } from '../helpers/service.ts'

const PHONE = { width: 360, height: 740 }
/** To the range, and until it is sent; before shapes folded and beds began as the one before it was 15, 21 and seven screens. */
const MOST = { taps: 12, fields: 6, screens: 4, tapsUntilSent: 18 }

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
  const context = await browser.newContext({
    viewport: PHONE,
    hasTouch: true,
    isMobile: true,
    locale: 'en-US',
  })
  const page = await context.newPage()
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
  await context.close()
})
