import { join } from 'node:path'
import type { Browser, Locator, Page } from 'playwright-core'
import { axeFaults, sidewaysFaults } from './axe.ts'
import { markupFaults } from './markup.ts'
import { until } from './until.ts'

const MOST_TABS = 250

/** Somebody at a phone 320 px wide who has no mouse. */
export interface Walker {
  page: Page
  open(address: string): Promise<void>
  /** Goes to a control by the Tab key, and types over what stands in it. */
  type(target: Locator, text: string): Promise<void>
  /** Goes to a group of radios by the Tab key, and to the one with a value by the arrows. */
  pick(name: string, value: string): Promise<void>
  /** Goes to a link, button or tick by the Tab key, and presses it. */
  press(target: Locator): Promise<void>
  /** Looks at the page as it is: keeps a picture of it, and gathers what is wrong with it. */
  look(name: string): Promise<void>
  /** Keeps a picture of what the phone shows with something of the page at the top. */
  picture(name: string, of: Locator): Promise<void>
  /** Everything that was wrong on the way. */
  faults: string[]
  close(): Promise<void>
}

export interface WalkOptions {
  scripts: boolean
  /** Where the pictures go; nowhere where none are wanted, as each takes its time. */
  shots: string | undefined
}

export async function startWalker(browser: Browser, { scripts, shots }: WalkOptions): Promise<Walker> {
  const context = await browser.newContext({
    viewport: { width: 320, height: 720 },
    javaScriptEnabled: scripts,
    locale: 'en-US',
  })
  const page = await context.newPage()
  const faults: string[] = []
  const documents = watch(page, faults)
  const walker: Walker = {
    page,
    faults,
    open: async address => {
      await page.goto(address)
    },
    type: async (target, text) => {
      await tabTo(page, target)
      await page.keyboard.press('ControlOrMeta+a')
      await page.keyboard.insertText(text)
    },
    pick: (name, value) => pick(page, name, value),
    press: async target => {
      const isTick = (await target.getAttribute('type')) === 'checkbox'
      await tabTo(page, target)
      if (isTick) return page.keyboard.press('Space')
      const loaded = page.waitForEvent('load')
      await page.keyboard.press('Enter')
      await loaded
    },
    look: async name => {
      await page.bringToFront()
      if (shots) await page.screenshot({ path: join(shots, `${name}.png`), fullPage: true })
      const found = await faultsOf(page, scripts, documents.at(-1) ?? '')
      faults.push(...found.map(fault => `${name}: ${fault}`))
    },
    picture: async (name, of) => {
      if (!shots) return
      await of.evaluate(element => element.scrollIntoView({ block: 'start', behavior: 'instant' }))
      await page.screenshot({ path: join(shots, `${name}.png`) })
    },
    close: () => context.close(),
  }
  return walker
}

/** Gathers every page that is answered, and what the browser complains of. */
function watch(page: Page, faults: string[]): string[] {
  const documents: string[] = []
  page.on('pageerror', error => faults.push(`script: ${error.message}`))
  page.on('console', message => {
    // The browser remarks on the refused form that the walk sends on purpose.
    const onPurpose = message.text().includes('status of 422')
    if (message.type() === 'error' && !onPurpose) faults.push(`console: ${message.text()}`)
  })
  page.on('response', async response => {
    const isPage =
      response.request().resourceType() === 'document' && response.headers().location === undefined
    if (isPage) documents.push(await response.text())
  })
  return documents
}

async function tabTo(page: Page, target: Locator): Promise<void> {
  await target.waitFor({ state: 'visible' })
  for (let tabs = 0; tabs < MOST_TABS; tabs += 1) {
    if (await target.evaluate(element => element === document.activeElement)) return requireSeen(target)
    await page.keyboard.press('Tab')
  }
  throw new Error(`The Tab key does not reach ${target}`)
}

async function requireSeen(target: Locator): Promise<void> {
  const seen = () =>
    target.evaluate(element => {
      const box = element.getBoundingClientRect()
      return box.bottom > 0 && box.top < window.innerHeight && element.matches(':focus-visible')
    })
  await until(seen, { within: 10_000, what: `the focus on ${target} to be seen` })
}

async function pick(page: Page, name: string, value: string): Promise<void> {
  const group = page.locator(`input[type=radio][name="${name}"]`)
  const checked = page.locator(`input[type=radio][name="${name}"]:checked`)
  const stop = (await checked.count()) > 0 ? checked : group.first()
  await tabTo(page, stop)
  if ((await checked.count()) === 0) await page.keyboard.press('Space')
  for (let steps = 0; steps < (await group.count()); steps += 1) {
    if ((await checked.getAttribute('value')) === value) return
    await page.keyboard.press('ArrowDown')
  }
  throw new Error(`The arrows do not reach ${value} of ${name}`)
}

/**
 * axe needs scripts, and what it says of the pages as they are sent `every-page.test.ts` tells; as they are sent they are
 * the same with scripts.
 */
async function faultsOf(page: Page, scripts: boolean, markup: string): Promise<string[]> {
  const found = scripts ? await axeFaults(page) : await markupFaults(markup)
  return [...(await sidewaysFaults(page)), ...found]
}
