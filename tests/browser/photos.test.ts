import { type Browser, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { CHROMIUM_ARGUMENTS, findChromium } from '../helpers/chromium.ts'
import { startService } from '../helpers/service.ts'
import { halves } from '../photos/pictures.ts'

let service: Awaited<ReturnType<typeof startService>>
let browser: Browser
let page: Page

beforeAll(async () => {
  service = await startService()
  browser = await chromium.launch({ executablePath: findChromium()!, args: CHROMIUM_ARGUMENTS })
  page = await browser.newPage({ locale: 'en-US', viewport: { width: 360, height: 740 } })
})
afterAll(async () => {
  await browser?.close()
  await service?.close()
})

const shown = () => page.locator('.photo img').count()

test('photos are sent as they are chosen, one after the other, come back with the page, and go with the request', async () => {
  const bytes = await halves('#336633', '#553311').jpeg().toBuffer()
  const file = (name: string, buffer: Buffer) => ({ name, mimeType: 'image/jpeg', buffer })
  await page.goto(service.address)
  await page.getByRole('link', { name: 'Photos only' }).click()
  await page.waitForURL('**/request?as=photos')
  expect(await page.locator('[data-photo-fields]').count()).toBe(0)

  let running = 0
  let most = 0
  await page.route('**/request/photos', async route => {
    running += 1
    most = Math.max(most, running)
    const answer = await route.fetch()
    running -= 1
    await route.fulfill({ response: answer })
  })
  const files = [file('one.jpg', bytes), file('two.jpg', Buffer.from('no photo')), file('three.jpg', bytes)]
  await page.locator('[data-photo-pick] input').setInputFiles(files)
  await page.getByText('We can’t read this as a picture.').waitFor()
  await expect.poll(shown).toBe(2)
  expect(most).toBe(1)

  await page.locator('[name="photos.0.words"]').fill('the bed by the porch')
  await page.reload()
  await expect.poll(shown).toBe(2)
  expect(await page.locator('[name="photos.0.words"]').inputValue()).toBe('the bed by the porch')
  await page.getByRole('button', { name: 'Remove' }).last().click()
  await expect.poll(shown).toBe(1)

  for (const [field, text] of [
    ['name', 'Carol Reyes'],
    ['phone', '512 555 0142'],
    ['street', '12 Fern Lane, Austin'],
    ['postcode', '78701'],
  ] as const)
    await page.fill(`#${field}`, text)
  await page.getByRole('button', { name: 'Send' }).click()
  await page.waitForURL('**/r/**')
  await expect.poll(shown).toBe(1)
  await page.getByText('the bed by the porch').waitFor()

  await page.locator('[data-photo-pick] input').setInputFiles([file('four.jpg', bytes)])
  await page.locator('[name="photos.0.words"]').waitFor()
  await expect.poll(shown).toBe(2)
  await page.getByRole('button', { name: 'Save photos' }).click()
  await page.getByText('We have your photo.').waitFor()
  expect(await shown()).toBe(2)
})
