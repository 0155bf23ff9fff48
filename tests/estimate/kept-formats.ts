import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { StoredTable } from '../../src/estimate/table/complete-table.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { jobOf } from './jobs.ts'

interface KeptJob {
  beds: Partial<BedTold>[]
  extras: string[]
  postcode: string
}

/** A stored table of one format, with jobs and what they came to as the program was when tables were stored so. */
export interface KeptTable {
  format: number
  about: string
  table: StoredTable
  jobs: (KeptJob & object)[]
}

const FOLDER = join(import.meta.dirname, 'formats')

/** Every kept table, of every format that was ever stored. */
export function keptTables(): KeptTable[] {
  return readdirSync(FOLDER)
    .sort()
    .flatMap(file => {
      const format = Number(/^format-(\d+)\.json$/.exec(file)![1])
      const kept: Omit<KeptTable, 'format'>[] = JSON.parse(readFileSync(join(FOLDER, file), 'utf8'))
      return kept.map(one => ({ ...one, format }))
    })
}

/** A kept job worked out with a table, as it is kept. */
export function workedOut({ beds, extras, postcode }: KeptJob, table: RateTable) {
  const job = jobOf(beds, table, extras, postcode)
  const { lines, total, tax, laborHoursTotal, cost, margin } = workOutPrice(job, table)
  return {
    beds,
    extras,
    postcode,
    lines: lines.map(({ kind, slug, amount }) => [kind, slug, amount].join(' ').replace('  ', ' ')),
    total,
    tax,
    crewHours: laborHoursTotal,
    cost,
    margin,
    range: workOutBallpark(job, table, { method: 1 }).range,
  }
}
