/**
 * `npm run faults`: what can go wrong, one kind after another, and a table of how it went; `-- --long` as often as a night
 * allows, and words after it choose the kinds that have one of them. Ends with 1 where anything was lost or nothing ran.
 */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

interface Kind {
  what: string
  files: string[]
  /** How often, in a long run: see the tests that read it. */
  long?: Record<string, string>
}

const KINDS: Kind[] = [
  { what: 'kill -9 under load', files: ['faults/kill.test'], long: { ROUNDS: '250' } },
  { what: 'kill -9 after any statement', files: ['start/killed-at-statement'], long: { KILLS: 'all' } },
  { what: 'kill -9 while migrating', files: ['faults/dying'] },
  {
    what: 'races, of two processes too',
    files: [
      'faults/two-',
      'bookings/last-room',
      'bookings/rain-twice',
      'bookings/halves-twice',
      'billing/make-bill',
    ],
    long: { COMPETING: '1000', MESSAGES: '400' },
  },
  {
    what: 'restarts of the database',
    files: ['faults/restarts', 'faults/connections'],
    long: { ROUNDS: '50' },
  },
  { what: 'loss of the database’s server', files: ['faults/failover'] },
  { what: 'SIGTERM under load', files: ['start/stop-under-load'] },
  { what: 'slow and broken input', files: ['faults/slow-sockets', 'http/multipart', 'access/junk'] },
  { what: 'forms filled in at random', files: ['access/typed-at-random'], long: { FUZZ: '50000' } },
  { what: 'mail server away', files: ['letters/retries', 'letters/delivery'] },
  { what: 'clocks and zones', files: ['db/values', 'letters/reminders', 'days/'] },
]

const words = process.argv.slice(2).filter(word => word !== '--long')
const isLong = process.argv.includes('--long')
const chosen = KINDS.filter(({ what }) => words.length === 0 || words.some(word => what.includes(word)))
const results = chosen.map(run)
console.log(`\n${'what'.padEnd(32)}${'passed'.padStart(8)}${'failed'.padStart(8)}${'seconds'.padStart(9)}`)
for (const { what, passed, failed, seconds } of results)
  console.log(
    `${what.padEnd(32)}${String(passed).padStart(8)}${String(failed).padStart(8)}${seconds.padStart(9)}`,
  )
process.exitCode = results.length > 0 && results.every(({ passed, isGood }) => passed > 0 && isGood) ? 0 : 1

function run({ what, files, long = {} }: Kind) {
  const folder = mkdtempSync(join(tmpdir(), 'bedwright-faults-'))
  const counts = join(folder, 'counts.json')
  const reports = ['--reporter=default', '--reporter=json', `--outputFile.json=${counts}`]
  const start = performance.now()
  const { status } = spawnSync(
    join(import.meta.dirname, '../../node_modules/.bin/vitest'),
    ['run', '--config', 'tests/vitest.config.ts', ...reports, ...files.map(file => `tests/${file}`)],
    {
      stdio: ['ignore', 'inherit', 'inherit'],
      cwd: join(import.meta.dirname, '../..'),
      env: { ...(isLong ? long : {}), ...process.env, CI: 'true' },
    },
  )
  const seconds = ((performance.now() - start) / 1000).toFixed(0)
  const { passed, failed } = countsIn(counts)
  rmSync(folder, { recursive: true })
  return { what, passed, failed, seconds, isGood: status === 0 && failed === 0 }
}

function countsIn(file: string): { passed: number; failed: number } {
  try {
    const { numPassedTests: passed, numFailedTests: failed } = JSON.parse(readFileSync(file, 'utf8'))
    return { passed, failed }
  } catch {
    return { passed: 0, failed: 0 }
  }
}
