import type { Kind } from './kinds.ts'
import type { Report } from './report.ts'

/** How one kind went. */
export interface Went {
  kind: Kind
  tries: string
  reports: Report[]
  seconds: number
  /** The seed of the order, from which others are made. */
  seed: string
  /** Whether every run of it ended well. */
  endedWell: boolean
}

/** Those of a kind that no file has run for, as after one was given another name. */
export function unmatched(files: string[], ran: string[]): string[] {
  return files.filter(part => !ran.some(file => file.startsWith(`tests/${part}`)))
}

/** Whether tests ran for each of its files, on each pass, and none failed or was left out. */
export function isGood({ kind, reports, endedWell }: Went): boolean {
  return (
    endedWell &&
    reports.length > 0 &&
    reports.every(
      ({ passed, failed, skipped, files }) =>
        passed > 0 && failed === 0 && skipped === 0 && unmatched(kind.files, files).length === 0,
    )
  )
}

/** A line for each kind, and beneath what failed, with its seeds. */
export function tableOf(all: Went[]): string {
  const sum = (reports: Report[], what: 'passed' | 'failed') =>
    reports.reduce((total, report) => total + report[what], 0)
  const rows = [
    ['what', 'stores', 'tries', 'seed', 'passed', 'failed', 'seconds'],
    ...all.map(({ kind, tries, seed, reports, seconds }) => [
      kind.what,
      storesOf(kind, reports),
      tries,
      seed,
      String(sum(reports, 'passed')),
      String(sum(reports, 'failed')),
      seconds.toFixed(0),
    ]),
  ]
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map(row => row[column]!.length)))
  const lines = rows.map(row =>
    row
      .map((cell, column) => cell.padEnd(widths[column]!))
      .join('  ')
      .trimEnd(),
  )
  return [...lines, ...all.flatMap(wrongWith)].join('\n')
}

function storesOf({ stores }: Kind, reports: Report[]): string {
  if (stores) return stores
  const projects = new Set(reports.flatMap(report => report.projects))
  const found = ['embedded', 'postgres'].filter(store => projects.has(store))
  return found.length === 2 ? 'both' : (found[0] ?? '-')
}

function wrongWith({ kind, reports, seed, endedWell }: Went): string[] {
  const failures = reports.flatMap(report => report.failures)
  const missing = [...new Set(reports.flatMap(({ files }) => unmatched(kind.files, files)))]
  const skipped = reports.reduce((total, report) => total + report.skipped, 0)
  const lines = [
    ...failures.map(failure => `failed, with TEST_SEED=${seed}: ${failure}`),
    ...missing.map(part => `no test ran for ${part}`),
    ...(skipped > 0 ? [`${skipped} left out`] : []),
    ...(endedWell || failures.length > 0 ? [] : ['the run itself failed']),
  ]
  return lines.map(line => `${kind.what}: ${line}`)
}
