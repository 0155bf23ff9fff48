import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { axeFaults, OF_LAYOUT, sidewaysFaults } from '../helpers/axe.ts'
import { CHROMIUM_ARGUMENTS, findChromium } from '../helpers/chromium.ts'
import { kindOf, SoundParts, skeletonOf } from '../helpers/kind-of-page.ts'
import { ALICE } from '../helpers/people.ts'
import { pageStates } from './page-states.ts'

const PHONE = { size: 'phone', viewport: { width: 320, height: 640 }, rules: undefined }
const PHONE_LAYOUT = { ...PHONE, rules: OF_LAYOUT }
const DESK = { size: 'desk', viewport: { width: 1280, height: 800 }, rules: OF_LAYOUT }

let app: TestApp
let browser: Browser

beforeAll(async () => {
  app = await testApp()
  browser = await chromium.launch({ executablePath: findChromium()!, args: CHROMIUM_ARGUMENTS })
})

afterAll(async () => {
  await browser?.close()
  await app?.close()
})

test('every page in each of its states is accessible and fits, on a phone and on a desk, in both languages', async () => {
  const faults: string[] = []
  const seen = new Set<string>()
  const sound = new SoundParts()
  const look = async (page: Page, name: string) => {
    const skeleton = skeletonOf(await page.content())
    const kind = kindOf(skeleton)
    const inThisLanguage = `${await page.getAttribute('html', 'lang')} ${kind}`
    if (seen.has(inThisLanguage)) return
    // The same markup with other words, or the same parts put together anew, can differ in what depends on how long they
    // are and on where they stand, most of all on a phone.
    const onPhone = seen.has(kind) || !sound.isNew(skeleton) ? PHONE_LAYOUT : PHONE
    const sizes = seen.has(kind) ? [onPhone] : [onPhone, DESK]
    seen.add(kind).add(inThisLanguage)
    const before = faults.length
    for (const { size, viewport, rules } of sizes) {
      await page.setViewportSize(viewport)
      const found = [...(await sidewaysFaults(page)), ...(await axeFaults(page, rules))]
      faults.push(...found.map(fault => `${name}, ${size}: ${fault}`))
    }
    if (faults.length === before) sound.add(skeleton)
  }
  const readers = { English: await reader('en-US'), Spanish: await reader('es-MX') }
  const owner = await reader('en-US')
  let signedIn = false

  for await (const { name, who, address, faults: hasFaults } of pageStates(app)) {
    if (who === 'owner' && !signedIn) await signIn(owner.context())
    signedIn ||= who === 'owner'
    const path = await address()
    for (const [language, page] of who === 'owner' ? [['', owner] as const] : Object.entries(readers)) {
      await page.goto(app.base + path)
      await look(page, `${name} ${language}`)
      if (!hasFaults) continue
      const answer = await sendEmptied(page)
      if (answer && answer >= 400) await look(page, `${name} ${language}, refused`)
    }
  }
  expect(faults).toEqual([])
  expect(seen.size).toBeGreaterThan(130)
})

async function reader(locale: string): Promise<Page> {
  const context = await browser.newContext({ locale })
  return context.newPage()
}

async function signIn({ request }: BrowserContext): Promise<void> {
  const { email, password } = ALICE
  const answer = await request.post(`${app.base}/sign-in`, {
    form: { email, password },
    headers: { origin: app.deps.config.publicUrl },
    maxRedirects: 0,
  })
  expect(answer.status()).toBe(303)
}

/** A form that is answered with a page: what is saved as a file leaves the page as it is. */
const FORM = 'main form[method=post]:not([action$=".zip"], [action$=".csv"], [action$="/export"])'

/** Sends the first form that the page has for itself with nothing in it, past the browser's own checks; gives the status. */
async function sendEmptied(page: Page): Promise<number | undefined> {
  if ((await page.locator(FORM).count()) === 0) return undefined
  const [answer] = await Promise.all([
    page.waitForResponse(response => response.request().method() === 'POST'),
    page.waitForEvent('load'),
    page.evaluate(`{
      const form = document.querySelector(${JSON.stringify(FORM)})
      for (const control of form.elements) {
        if (['checkbox', 'radio'].includes(control.type)) control.checked = false
        else if (control.type !== 'hidden' && control.tagName !== 'SELECT') control.value = ''
      }
      HTMLFormElement.prototype.submit.call(form)
    }`),
  ])
  return answer.status()
}
