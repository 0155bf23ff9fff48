import { type Browser, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bookedToday } from '../helpers/bookings.ts'
import { CHROMIUM_ARGUMENTS, findChromium } from '../helpers/chromium.ts'
import { bookedBed, readyToLoad } from '../helpers/loads.ts'
import { readPdf } from '../helpers/pdf.ts'
import { ALICE, openBusiness } from '../helpers/people.ts'
import { bedTold, told } from '../helpers/requests.ts'

let app: TestApp
let browser: Browser
let page: Page

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  browser = await chromium.launch({ executablePath: findChromium()!, args: CHROMIUM_ARGUMENTS })
  page = await browser.newPage({ locale: 'en-US' })
  await page.goto(`${app.base}/sign-in`)
  await page.fill('[name=email]', ALICE.email)
  await page.fill('[name=password]', ALICE.password)
  await page.locator('main button[type=submit]').first().click()
  await page.waitForURL(`${app.base}/queue`)
})
afterAll(async () => {
  await browser?.close()
  await app?.close()
})

/** The words of each page of the paper that a page is printed on. */
async function printed(path: string): Promise<string[]> {
  await page.goto(app.base + path)
  return (await readPdf(await page.pdf({ format: 'Letter' }))).pages
}

test('the sheet of thirty stops with forty beds is printed on three pages at most, without buttons', async () => {
  const stops = Array.from({ length: 30 }, (_, at) => ({
    ...{ name: `Entrance ${at + 1}`, spot: `${100 + 2 * at} Cattail Way`, note: '' },
  }))
  const beds = Array.from({ length: 40 }, (_, at) => bedTold({ stop: at % 30 }))
  const { number } = await bookedToday(app, '0.5', { told: { ...told(...beds), stops } })
  const pages = await printed(`/days/jobs/${number}/sheet`)
  expect(pages.length).toBeLessThanOrEqual(3)
  for (const { name } of stops) expect(pages.join(' ')).toContain(name)
  expect(pages.join(' ')).not.toContain('Stop done')
})

test('the sheet of a job of four beds, and the load list of three jobs, are a page each', async () => {
  await readyToLoad(app)
  const beds = Array.from({ length: 4 }, () => bedTold())
  const { number } = await bookedToday(app, '0.5', { told: told(...beds) })
  expect(await printed(`/days/jobs/${number}/sheet`)).toHaveLength(1)
  const day = '2026-03-10'
  for (const _ of [1, 2, 3]) await bookedBed(app, day, '12', '12')
  const [list, ...more] = await printed(`/loads/${day}`)
  expect(more).toEqual([])
  expect(list).toMatch(/Trip 1, Pickup.*Trip 2, Pickup/)
})
