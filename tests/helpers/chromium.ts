import { existsSync } from 'node:fs'
import { chromium } from 'playwright-core'

const USUAL = [
  // The same engine without windows around it takes half of the processor's time.
  '/usr/bin/chromium-headless-shell',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
]

/** It asks nothing of the network but the service, and runs as root too. */
export const CHROMIUM_ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/** The Chromium for the browser tests: the one that the variable CHROMIUM names, or one in a usual place. */
export function findChromium(): string | undefined {
  return [process.env.CHROMIUM, ...USUAL, chromium.executablePath()].find(path => path && existsSync(path))
}

/** Stops the browser tests where there is no Chromium. */
export default function requireChromium(): void {
  if (!findChromium()) throw new Error('The browser tests need a Chromium: set CHROMIUM to its path.')
}
