import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { chromium } from 'playwright-core'
import { defineConfig, type TestProjectConfiguration } from 'vitest/config'

// Folders whose tests need no store; every other folder, a new one too, runs once on each store.
const PURE = ['estimate', 'handbook', 'house', 'language', 'lib']
const files = (folder: string) => `tests/${folder}/**/*.test.ts`
const wholeApp = {
  include: ['tests/**/*.test.ts'],
  exclude: [...PURE, 'faults', 'browser'].map(files),
  globalSetup: ['tests/helpers/global-setup.ts'],
}

export default defineConfig({
  root: join(import.meta.dirname, '..'),
  test: {
    pool: 'forks',
    maxWorkers: 2,
    testTimeout: 30_000,
    hookTimeout: 60_000,
    projects: [
      { extends: true, test: { name: 'pure', include: PURE.map(files) } },
      { extends: true, test: { name: 'embedded', provide: { storeKind: 'embedded' }, ...wholeApp } },
      { extends: true, test: { name: 'postgres', provide: { storeKind: 'postgres' }, ...wholeApp } },
      { extends: true, test: { name: 'faults', include: [files('faults')], testTimeout: 120_000 } },
      ...browserProject(),
    ],
  },
})

function browserProject(): TestProjectConfiguration[] {
  if (!hasChromium() && !process.env.CI) {
    console.log('The browser tests are left out: no Chromium found (set CHROMIUM to its path).')
    return []
  }
  return [{ extends: true, test: { name: 'browser', include: [files('browser')], testTimeout: 300_000 } }]
}

function hasChromium(): boolean {
  const usual = [
    '/usr/bin/chromium',
    '/usr/bin/chromium-browser',
    '/usr/bin/google-chrome',
    chromium.executablePath(),
  ]
  return [process.env.CHROMIUM, ...usual].some(path => path !== undefined && path !== '' && existsSync(path))
}
