import { rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, matchesGlob } from 'node:path'
import {
  defineConfig,
  type TestProjectConfiguration,
  type TestProjectInlineConfiguration,
} from 'vitest/config'
import { ProjectByProject } from './helpers/run-order.ts'
import { SEED } from './helpers/seed.ts'

// Folders whose tests need no store; every other folder, a new one too, runs once on each store.
const PURE = [
  'backup/reading',
  'command/typed',
  'demo',
  'drawing',
  'estimate',
  'handbook',
  'house',
  'junk',
  'language',
  'lib',
  'limits',
  'paper',
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
// These measure how long something takes.
const TIMED = ['connections', 'restarts', 'second-process'].map(name => `tests/faults/${name}.test.ts`)
// Each starts Bedwright in processes of its own, again and again.
const PROCESSES = [
  ...[files('start'), files('faults')],
  ...['command/running-service', 'demo/demo'].map(name => `tests/${name}.test.ts`),
]
/** What these walk through, try or write is the same on the other store: pages, the types that refuse what is sent, files. */
export const ON_ONE_STORE = [
  ...['access/every-form', 'access/no-costs', 'access/junk', 'backup/encrypted'],
  ...(process.env.FUZZ ? [] : ['access/typed-at-random']),
].map(name => `tests/${name}.test.ts`)
// What Node has made of the files once needn't be made for each of dozens of processes.
process.env.NODE_COMPILE_CACHE ??= join(import.meta.dirname, '../node_modules/.cache/compiled')
const MADE_STORE = join(tmpdir(), `bedwright-made-${process.pid}`)
process.once('exit', () => rmSync(MADE_STORE, { recursive: true, force: true }))

/** What this run leaves out; CI leaves out nothing. */
export const LEFT_OUT = [
  ...leftOut('browser', [files('browser')], 'in a browser'),
  ...leftOut('processes', PROCESSES, 'with processes of their own'),
]
// What holds on the embedded store holds on a server but for what differs between them.
const POSTGRES = Boolean(process.env.TEST_DATABASE_URL) || asked('postgres')
if (!POSTGRES)
  console.log('The tests of pages are left out on PostgreSQL: `npm run test:all` runs them there too.')

type Kind = TestProjectInlineConfiguration['test'] & { include: string[] }
const wholeApp = {
  include: ['tests/**/*.test.ts'],
  exclude: [...[...PURE, 'faults', 'browser'].map(files), ...LEFT_OUT],
  globalSetup: ['tests/helpers/global-setup.ts'],
}
const inBrowser = {
  testTimeout: 600_000,
  provide: { storeKind: 'embedded' as const },
  globalSetup: ['tests/helpers/chromium.ts', 'tests/helpers/global-setup.ts'],
}

export default defineConfig({
  root: join(import.meta.dirname, '..'),
  test: {
    pool: 'forks',
    // The code runs as it does in use: read by Node itself, types stripped.
    experimental: { viteModuleRunner: false },
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
      // The longest file first, lest it be the last to end.
      ...kind({ ...inBrowser, name: 'every-page', include: [EVERY_PAGE] }),
      ...kind({ name: 'waiting', include: [SLOW_SOCKETS], isolate: true, testTimeout: 120_000 }),
      ...kind({
        ...inBrowser,
        name: 'browser',
        include: [files('browser')],
        exclude: [EVERY_PAGE],
      }),
      ...kind({
        name: 'faults',
        include: [files('faults')],
        exclude: [SLOW_SOCKETS, ...TIMED],
        isolate: true,
        testTimeout: 120_000,
      }),
      ...kind({ name: 'pure', include: PURE.map(files), exclude: LEFT_OUT }),
      ...kind({ name: 'embedded', provide: { storeKind: 'embedded' }, ...wholeApp }),
      ...(POSTGRES ? [onPostgres()] : []),
      ...alone({ name: 'timed', include: TIMED, testTimeout: 120_000 }),
    ],
  },
})

function onPostgres(): TestProjectConfiguration {
  const exclude = [...wholeApp.exclude, ...ON_ONE_STORE]
  return {
    extends: true,
    test: { name: 'postgres', provide: { storeKind: 'postgres' }, ...wholeApp, exclude },
  }
}

/** A kind of run, unless all that it is for is left out. */
function kind(test: Kind): TestProjectConfiguration[] {
  return test.include.every(glob => isLeftOut(glob)) ? [] : [{ extends: true, test }]
}

function isLeftOut(file: string): boolean {
  return LEFT_OUT.some(glob => glob === file || matchesGlob(file, glob))
}

/** A kind that measures time: it runs after the others, one of its files at a time. */
function alone(test: Kind): TestProjectConfiguration[] {
  return kind({ ...test, isolate: true, maxWorkers: 1, fileParallelism: false, sequence: { groupOrder: 1 } })
}

function leftOut(word: string, globs: string[], what: string): string[] {
  if (asked(word)) return []
  console.log(`The tests ${what} are left out: \`npm run test:all\` runs them too.`)
  return globs
}

function asked(word: string): boolean {
  return Boolean(process.env.CI) || process.argv.some(typed => typed.includes(word))
}
