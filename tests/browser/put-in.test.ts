import { type Browser, chromium, type Locator, type Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { CHROMIUM_ARGUMENTS, findChromium } from '../helpers/chromium.ts'
import { ALICE } from '../helpers/people.ts'
import { startService } from '../helpers/service.ts'

const BY_TOUCH = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true, locale: 'en-US' }
/** From any page of the staff's until it is in the queue, with name, phone, street and amount. */
const MOST = { taps: 5, fields: 4, pages: 2 }

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

async function signIn(scripts: boolean): Promise<Page> {
  const context = await browser.newContext({ ...BY_TOUCH, javaScriptEnabled: scripts })
  const page = await context.newPage()
  await page.goto(`${service.address}/sign-in`)
  await page.fill('[name=email]', ALICE.email)
  await page.fill('[name=password]', ALICE.password)
  await page.locator('main button[type=submit]').tap()
  await page.waitForURL('**/queue')
  await page.goto(`${service.address}/days`)
  return page
}

/** A thumb: each touch of the page is a tap, each field typed into a field. */
function thumb(page: Page) {
  const counted = { taps: 0, fields: 0, pages: 0 }
  const tap = async (target: Locator) => {
    await target.tap()
    counted.taps += 1
  }
  const type = async (words: string) => {
    await page.keyboard.insertText(words)
    counted.fields += 1
  }
  const goOn = async (target: Locator, to: string) => {
    await tap(target)
    await page.waitForURL(to)
    counted.pages += 1
  }
  return { counted, tap, type, goOn }
}

test.each([true, false])(
  'who phones is in the queue within half a minute of one thumb, scripts %s',
  async scripts => {
    const page = await signIn(scripts)
    const { counted, tap, type, goOn } = thumb(page)
    await goOn(page.locator('.head-new a'), '**/put-in')
    // The caret stands there already.
    await page.locator('[name=name]:focus').waitFor()
    await type('Dora Spruce')
    await tap(page.locator('[name=phone]'))
    await type('512 555 0931')
    await tap(page.locator('[name=street]'))
    await type('7 Rue Court')
    await tap(page.locator('[name=beds]'))
    await type('6 cubic yards')
    await goOn(page.locator('form.put-in button[type=submit]'), '**/put-in/26-*')
    expect(counted.taps).toBeLessThanOrEqual(MOST.taps)
    expect(counted.fields).toBeLessThanOrEqual(MOST.fields)
    expect(counted.pages).toBeLessThanOrEqual(MOST.pages)
    const text = page.locator('a[href^="sms:5125550931"]')
    expect(decodeURIComponent((await text.getAttribute('href'))!)).toMatch(
      /Hi Dora Spruce, .*\/r\/[\w-]{40,}$/,
    )
    await page.context().close()
  },
)
