import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { type Browser, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { CHROMIUM_ARGUMENTS, findChromium } from '../helpers/chromium.ts'
import { ALICE } from '../helpers/people.ts'
import { startService } from '../helpers/service.ts'
import { until } from '../helpers/until.ts'

let service: Awaited<ReturnType<typeof startService>>
let browser: Browser
/** The contractor's own site, and one that isn't named: of another site than the service, which is at localhost. */
let site: { server: Server; origin: string }
let stranger: typeof site
let markup = ''

beforeAll(async () => {
  service = await startService()
  browser = await chromium.launch({ executablePath: findChromium()!, args: CHROMIUM_ARGUMENTS })
  ;[site, stranger] = await Promise.all([startSite(), startSite()])
})

afterAll(async () => {
  for (const { server } of [site, stranger]) {
    server.closeAllConnections()
    server.close()
  }
  await browser?.close()
  await service?.close()
})

async function startSite() {
  const server = createServer((_request, response) => {
    response.setHeader('content-type', 'text/html').end(`<!DOCTYPE html><h1>A site</h1>${markup}`)
  })
  await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve))
  return { server, origin: `http://127.0.0.1:${(server.address() as AddressInfo).port}` }
}

/** Names the site on the page Settings, and gives what that page offers to put into it. */
async function nameSite(page: Page): Promise<string> {
  await page.goto(`${service.address}/settings`)
  await page.fill('#email', ALICE.email)
  await page.fill('#password', ALICE.password)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await page.waitForURL('**/settings')
  await page.fill('#sites', site.origin)
  await page.getByRole('button', { name: 'Save the sites' }).click()
  await page.getByText('These sites can show your form now.').waitFor()
  expect(await page.inputValue('#sites')).toBe(site.origin)
  await page.getByText('Let the form be as tall as it needs').click()
  return (await page.inputValue('#snippet')) + (await page.inputValue('#snippet-height'))
}

test('a named site shows the form in a frame, and it is sent in there without a cookie; no other site shows it', async () => {
  const staff = await browser.newContext({ locale: 'en-US' })
  const snippet = await nameSite(await staff.newPage())
  await staff.close()
  markup = snippet.replace(
    `src="${service.address}/"`,
    `src="${service.address}/?language=es&material=stone"`,
  )

  const context = await browser.newContext({ viewport: { width: 1000, height: 700 }, locale: 'en-US' })
  const page = await context.newPage()
  const faults: string[] = []
  page.on('pageerror', error => faults.push(error.message))
  page.on('console', message => message.type() === 'error' && faults.push(message.text()))
  await page.goto(site.origin)
  const form = page.frameLocator('iframe')
  await form.locator('#beds-0-sizes-length').waitFor()
  expect(await form.locator('[name="beds.0.finish"]:checked').inputValue()).toBe('stone')

  // The frame is as tall as what is in it, and grows with it.
  const height = async () => (await page.locator('iframe').boundingBox())!.height
  const inside = () => form.locator('body').evaluate(body => body.getBoundingClientRect().height)
  const fits = async () => Math.abs((await height()) - (await inside())) < 2
  await until(fits, { within: 10_000, what: 'the frame to fit' })
  const before = await height()
  await form.locator('#beds-0-sizes-length').fill('60')
  await form.locator('#beds-0-sizes-width').fill('20')
  await form.locator('#go-on').waitFor({ state: 'visible' })
  await until(async () => (await fits()) && (await height()) > before, { within: 10_000, what: 'it to grow' })

  await form.getByRole('button', { name: 'Agregar otra jardinera' }).click()
  await form.locator('#bed-2').waitFor()
  await form.locator('#beds-1-sizes-length').fill('10x5')
  await form.getByRole('button', { name: 'Continuar' }).click()
  await form.locator('#name').fill('Carol Reyes')
  await form.locator('#phone').fill('512 555 0142')
  await form.locator('#street').fill('12 Fern Lane')
  await form.locator('#postcode').fill('78799')
  await form.getByText('Normalmente no trabajamos en este código postal.').waitFor()
  await form.locator('#postcode').fill('78701')
  await form.locator('#contact-shown [value="78701"]').waitFor({ state: 'attached' })
  await form.getByRole('button', { name: 'Enviar' }).click()
  await form.locator('[data-sent]').waitFor()
  expect(await form.locator('html').getAttribute('lang')).toBe('es')
  expect(await form.locator('main').textContent()).toMatch(/\d\d-\d{4}/)
  expect(await form.locator('.sign-in').isVisible()).toBe(false)
  expect(await context.cookies()).toEqual([])
  expect(faults).toEqual([])

  const elsewhere = await context.newPage()
  await elsewhere.goto(stranger.origin)
  await until(() => elsewhere.frames()[1]?.url().startsWith('chrome-error:'), {
    within: 10_000,
    what: 'the frame to be refused',
  })
  await context.close()
})
