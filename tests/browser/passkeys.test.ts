import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { CHROMIUM_ARGUMENTS, findChromium } from '../helpers/chromium.ts'
import { ALICE } from '../helpers/people.ts'
import { startService } from '../helpers/service.ts'

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

/** A page with a device that keeps passkeys and says yes by itself; gives what it keeps, to be put into another one. */
async function withDevice(context: BrowserContext) {
  const page = await context.newPage()
  const cdp = await context.newCDPSession(page)
  await cdp.send('WebAuthn.enable')
  const { authenticatorId } = await cdp.send('WebAuthn.addVirtualAuthenticator', {
    options: {
      protocol: 'ctap2',
      transport: 'internal',
      hasResidentKey: true,
      hasUserVerification: true,
      isUserVerified: true,
      automaticPresenceSimulation: true,
    },
  })
  const kept = async () => (await cdp.send('WebAuthn.getCredentials', { authenticatorId })).credentials
  const keep = async (credentials: Awaited<ReturnType<typeof kept>>) => {
    for (const credential of credentials)
      await cdp.send('WebAuthn.addCredential', { authenticatorId, credential })
  }
  return { page, kept, keep }
}

async function typePassword(page: Page, path = '/queue') {
  await page.goto(`${service.address}${path}`)
  await page.fill('#email', ALICE.email)
  await page.fill('#password', ALICE.password)
  await page.getByRole('button', { name: 'Sign in' }).click()
}

test('a passkey is added and signs in, at a phone’s width; a device without it gets a sentence, and codes work without scripts', async () => {
  const context = await browser.newContext({ viewport: { width: 320, height: 700 }, locale: 'en-US' })
  const { page, kept } = await withDevice(context)
  const faults: string[] = []
  page.on('pageerror', error => faults.push(error.message))
  page.on('console', message => message.type() === 'error' && faults.push(message.text()))
  await typePassword(page, '/password/passkeys')
  await page.getByRole('button', { name: 'Add a passkey' }).click()
  // Nothing is asked of the device before there is a name.
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('name')
  expect(await kept()).toHaveLength(0)
  await page.fill('#name', 'My phone')
  await page.keyboard.press('Enter')
  await page.locator('#codes').waitFor()
  const codes = await page.locator('#codes li').allInnerTexts()
  expect(codes).toHaveLength(10)
  expect(await kept()).toHaveLength(1)

  await page.goto(`${service.address}/password/passkeys`)
  await page.getByText('not used yet').waitFor()
  await page.fill('#name', 'The same again')
  await page.getByRole('button', { name: 'Add a passkey' }).click()
  await page.getByText('This device already has a passkey for you.').waitFor()
  await context.clearCookies()

  await typePassword(page)
  await page.getByRole('button', { name: 'Use your passkey' }).click()
  await page.waitForURL('**/queue')
  expect(faults).toEqual([])

  // Another device gives none, and takes it once it is there.
  const elsewhere = await browser.newContext({ locale: 'en-US' })
  const other = await withDevice(elsewhere)
  await typePassword(other.page)
  await other.page.getByRole('button', { name: 'Use your passkey' }).click()
  await other.page.getByText('We got no passkey from your device.').waitFor()
  await other.keep(await kept())
  await other.page.getByRole('button', { name: 'Use your passkey' }).click()
  await other.page.waitForURL('**/queue')

  const plain = await browser.newContext({ javaScriptEnabled: false, locale: 'en-US' })
  const scriptless = await plain.newPage()
  await typePassword(scriptless)
  await scriptless.getByText('turn on JavaScript').waitFor()
  expect(await scriptless.getByRole('button', { name: 'Use your passkey' }).isVisible()).toBe(false)
  await scriptless.fill('#code', codes[0]!)
  await scriptless.getByRole('button', { name: 'Sign in' }).click()
  await scriptless.waitForURL('**/queue')
  for (const one of [context, elsewhere, plain]) await one.close()
})
