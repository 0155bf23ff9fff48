/**
 * `npm run faults`: what can go wrong, one kind after another, and a table of how it went; `-- --long` as often as a night
 * allows, and words after it choose the kinds that have one of them. Ends with 1 where anything was lost, where nothing ran,
 * or where a kind names a test that isn't there.
 */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { KINDS, type Kind } from './kinds.ts'
import type { Report } from './report.ts'
import { isGood, tableOf, type Went } from './table.ts'

const ROOT = join(import.meta.dirname, '../..')
const NOTHING: Report = { passed: 0, failed: 0, skipped: 0, projects: [], files: [], failures: [] }

const words = process.argv.slice(2).filter(word => word !== '--long')
const isLong = process.argv.includes('--long')
const kinds = KINDS.map(kind => (isLong ? { ...kind, files: [...kind.files, ...(kind.more ?? [])] } : kind))
const chosen = kinds.filter(({ what }) => words.length === 0 || words.some(word => what.includes(word)))
const went = chosen.map(run)
console.log(`\n${tableOf(went)}`)
process.exitCode = went.length > 0 && went.every(isGood) ? 0 : 1

function run(kind: Kind): Went {
  const start = performance.now()
  const seed = process.env.TEST_SEED || String(Date.now() % 1_000_000_000)
  const { by, short, long } = kind.tries ?? {}
  const often = isLong ? { ...kind.long, ...(by ? { [by]: long } : {}) } : {}
  const passes = (isLong && kind.each) || [{}]
  const ended = passes.map(pass => runTests(kind, { ...often, ...process.env, ...pass, TEST_SEED: seed }))
  return {
    kind,
    tries: by ? (process.env[by] ?? (isLong ? long : short) ?? '') : String(passes.length),
    reports: ended.map(({ report }) => report),
    seconds: (performance.now() - start) / 1000,
    seed,
    endedWell: ended.every(({ status }) => status === 0),
  }
}

function runTests({ files }: Kind, environment: NodeJS.ProcessEnv) {
  const folder = mkdtempSync(join(tmpdir(), 'bedwright-faults-'))
  const report = join(folder, 'report.json')
  const { status } = spawnSync(
    join(ROOT, 'node_modules/.bin/vitest'),
    [
      ...['run', '--config', 'tests/vitest.config.ts'],
      ...['--reporter=default', '--reporter=./tests/faults/report.ts'],
      ...files.map(file => `tests/${file}`),
    ],
    {
      stdio: ['ignore', 'inherit', 'inherit'],
      cwd: ROOT,
      env: { ...environment, CI: 'true', FAULTS_REPORT: report },
    },
  )
  const told = readReport(report)
  rmSync(folder, { recursive: true })
  return { status, report: told }
}

function readReport(file: string): Report {
  try {
    return JSON.parse(readFileSync(file, 'utf8'))
  } catch {
    return NOTHING
  }
}
