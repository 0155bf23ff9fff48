import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { AgreedJob } from '../job-sheets/agreed-job.ts'
import { Decimal } from '../lib/decimal.ts'
import { lineName } from '../quotes/line-name.ts'
import { findShares } from '../quotes/stop-shares.ts'
import type { ShareDone } from './went.ts'

/** A line of a price that may be done in part, or what of it is at one stop; the share in percent, '100'. */
export interface ShareRow {
  position: number
  stop: number | null
  label: string
  share: string
}

/**
 * The lines of the price that was accepted, each once or stop by stop, with what of them is done: as it was said before,
 * else all of the stops that are checked off, and of the rest all.
 */
export async function linesToShare(
  db: Kysely<Database>,
  { quote, table }: AgreedJob,
  done: ReadonlySet<number>,
  before: readonly ShareDone[] = [],
): Promise<ShareRow[]> {
  const byStop = await findShares(db, quote.id)
  const { stops = [] } = quote.job
  return quote.lines
    .filter(({ kind }) => kind !== 'tax')
    .flatMap(line => {
      const { position } = line
      const label = lineName(line, table, 'en')
      const at = byStop.filter(share => share.position === position).map(({ stop }) => stop)
      const rows = at.length === 0 ? [null] : at
      return rows.map((stop): ShareRow => {
        const said = before.find(one => one.position === position && one.stop === stop)?.share
        const usual = stop === null || done.has(stop) || done.size === 0 ? '100' : '0'
        return {
          ...{ position, stop },
          label: stop === null ? label : `${stops[stop]?.name ?? ''}: ${label}`,
          share: said === undefined ? usual : new Decimal(said).times(100).toString(),
        }
      })
    })
}
