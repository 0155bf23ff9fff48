import { rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import {
  defineConfig,
  type TestProjectConfiguration,
  type TestProjectInlineConfiguration,
} from 'vitest/config'
import { findChromium } from './helpers/chromium.ts'
import { ProjectByProject, SEED } from './helpers/run-order.ts'

// Folders whose tests need no store; every other folder, a new one too, runs once on each store.
const PURE = [
  'backup/reading',
  'command/typed',
  'demo',
  'drawing',
  'estimate',
  'handbook',
  'house',
  'language',
  'lib',
  'load',
  'photos',
  'places',
  'rates/catalogue',
  'rates/csv',
  'views',
]
const files = (folder: string) => `tests/${folder}/**/*.test.ts`
const MADE_STORE = join(tmpdir(), `bedwright-made-${process.pid}`)
process.once('exit', () => rmSync(MADE_STORE, { recursive: true, force: true }))

type Kind = TestProjectInlineConfiguration['test']
const wholeApp = {
  include: ['tests/**/*.test.ts'],
  exclude: [...PURE, 'faults', 'browser'].map(files),
  globalSetup: ['tests/helpers/global-setup.ts'],
}

export default defineConfig({
  root: join(import.meta.dirname, '..'),
  test: {
    pool: 'forks',
    // A worker loads the application once, and keeps one store, for all its files.
    isolate: false,
    maxWorkers: 2,
    provide: { madeStore: MADE_STORE },
    testTimeout: 30_000,
    hookTimeout: 60_000,
    reporters: ['default', 'tests/helpers/slowest-files.ts'],
    sequence: {
      sequencer: ProjectByProject,
      shuffle: { files: false, tests: SEED !== undefined },
      seed: SEED,
    },
    projects: [
      { extends: true, test: { name: 'pure', include: PURE.map(files) } },
      { extends: true, test: { name: 'embedded', provide: { storeKind: 'embedded' }, ...wholeApp } },
      { extends: true, test: { name: 'postgres', provide: { storeKind: 'postgres' }, ...wholeApp } },
      ...browserProject(),
      alone({ name: 'faults', include: [files('faults')], testTimeout: 120_000 }),
    ],
  },
})

/**
 * A project that measures time: it runs after the others, one of its files at a time, but beside the other one that
 * does so. Three workers, because one may be waiting for the turn of its file.
 */
function alone(test: Kind, globalSetup: string[] = []): TestProjectConfiguration {
  return {
    extends: true,
    test: {
      ...test,
      isolate: true,
      maxWorkers: 3,
      sequence: { groupOrder: 1 },
      globalSetup: [...globalSetup, 'tests/helpers/turns.ts'],
      setupFiles: ['tests/helpers/my-turn.ts'],
    },
  }
}

function browserProject(): TestProjectConfiguration[] {
  if (!findChromium() && !process.env.CI) {
    console.log('The browser tests are left out: no Chromium found. Set CHROMIUM to the path of one.')
    return []
  }
  const provide = { storeKind: 'embedded' as const }
  const test = { name: 'browser', include: [files('browser')], testTimeout: 300_000, provide }
  return [alone(test, ['tests/helpers/chromium.ts', 'tests/helpers/global-setup.ts'])]
}
