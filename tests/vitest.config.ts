import { join } from 'node:path'
import { defineConfig, type TestProjectConfiguration } from 'vitest/config'
import { findChromium } from './helpers/chromium.ts'

// Folders whose tests need no store; every other folder, a new one too, runs once on each store.
const PURE = ['demo', 'drawing', 'estimate', 'handbook', 'house', 'language', 'lib']
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
    isolate: false,
    maxWorkers: 2,
    testTimeout: 30_000,
    hookTimeout: 60_000,
    projects: [
      { extends: true, test: { name: 'pure', include: PURE.map(files) } },
      { extends: true, test: { name: 'embedded', provide: { storeKind: 'embedded' }, ...wholeApp } },
      { extends: true, test: { name: 'postgres', provide: { storeKind: 'postgres' }, ...wholeApp } },
      // These two measure time, so they run after the others and one file at a time.
      {
        extends: true,
        test: { ...alone(1), name: 'faults', include: [files('faults')], testTimeout: 120_000 },
      },
      ...browserProject(),
    ],
  },
})

function alone(groupOrder: number) {
  return { maxWorkers: 1, sequence: { groupOrder } }
}

function browserProject(): TestProjectConfiguration[] {
  if (!findChromium() && !process.env.CI) {
    console.log('The browser tests are left out: no Chromium found. Set CHROMIUM to the path of one.')
    return []
  }
  const test = { name: 'browser', include: [files('browser')], testTimeout: 300_000 }
  return [{ extends: true, test: { ...alone(2), ...test, globalSetup: ['tests/helpers/chromium.ts'] } }]
}
