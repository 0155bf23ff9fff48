import { rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import {
  defineConfig,
  type TestProjectConfiguration,
  type TestProjectInlineConfiguration,
} from 'vitest/config'
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
const EVERY_PAGE = 'tests/browser/every-page.test.ts'
// Waits for half a minute and does nothing meanwhile.
const SLOW_SOCKETS = 'tests/faults/slow-sockets.test.ts'
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
    // One more than the cores of a small machine: a browser's test mostly waits.
    maxWorkers: 3,
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
      {
        extends: true,
        test: { name: 'waiting', include: [SLOW_SOCKETS], isolate: true, testTimeout: 120_000 },
      },
      ...browserProject(),
      { extends: true, test: { name: 'pure', include: PURE.map(files) } },
      { extends: true, test: { name: 'embedded', provide: { storeKind: 'embedded' }, ...wholeApp } },
      ...postgresProject(),
      alone({ name: 'faults', include: [files('faults')], exclude: [SLOW_SOCKETS], testTimeout: 120_000 }),
    ],
  },
})

/**
 * A project that measures time: it runs after the others, one of its files at a time, but beside the other one of the
 * kind. Three workers, because one may be waiting for the turn of its file.
 */
function alone(test: Kind): TestProjectConfiguration {
  return {
    extends: true,
    test: {
      ...test,
      isolate: true,
      maxWorkers: 3,
      sequence: { groupOrder: 1 },
      globalSetup: [...(test?.globalSetup ?? []), 'tests/helpers/turns.ts'],
      setupFiles: ['tests/helpers/my-turn.ts'],
    },
  }
}

// What holds on the embedded store holds on a server but for what differs between them; CI runs both.
function postgresProject(): TestProjectConfiguration[] {
  if (!asked('postgres') && !process.env.TEST_DATABASE_URL) {
    console.log('The tests of pages are left out on PostgreSQL: `npm run test:all` runs them there too.')
    return []
  }
  return [{ extends: true, test: { name: 'postgres', provide: { storeKind: 'postgres' }, ...wholeApp } }]
}

function browserProject(): TestProjectConfiguration[] {
  if (!asked('browser')) {
    console.log('The tests in a browser are left out: `npm run test:all` runs them too.')
    return []
  }
  const shared = {
    testTimeout: 300_000,
    provide: { storeKind: 'embedded' as const },
    globalSetup: ['tests/helpers/chromium.ts', 'tests/helpers/global-setup.ts'],
  }
  const walks = { name: 'browser', include: [files('browser')], exclude: [EVERY_PAGE], isolate: true }
  return [
    { extends: true, test: { ...walks, ...shared } },
    // One long file, which would be the last to end beside the others.
    alone({ name: 'every-page', include: [EVERY_PAGE], ...shared }),
  ]
}

function asked(word: string): boolean {
  return Boolean(process.env.CI) || process.argv.some(typed => typed.includes(word))
}
