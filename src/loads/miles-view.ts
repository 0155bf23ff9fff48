import { randomUUID } from 'node:crypto'
import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { seesCosts } from '../http/roles.ts'
import { translator } from '../language/catalogue.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { Decimal, sumOf } from '../lib/decimal.ts'
import { findMilesOfDay, findVehicles } from './miles.ts'
import type { Reader } from './view-load.ts'

/** How far was driven on a day, and the form to note more; `key` is that of the next one. */
export interface MilesView {
  rows: { id: number; words: string; facts: string[]; mayUndo: boolean }[]
  /** Of several, all together; '' of one. */
  inAll: string
  vehicles: string[]
  key: string
}

/** Null of a day that hasn't come. */
export async function viewMiles(
  db: Kysely<Database>,
  { day, today }: { day: string; today: string },
  { account, language, country }: Reader,
): Promise<MilesView | null> {
  if (day > today) return null
  const t = translator(language, country)
  const rows = await findMilesOfDay(db, day)
  const far = (distance: string, unit: string) => `${figureInWords(distance, language, 1)} ${unit}`
  return {
    rows: rows.map(
      ({ id, vehicle, odometer_out: out, odometer_back: back, distance, unit, words, ...row }) => ({
        id,
        words: `${vehicle}: ${far(distance, unit)}`,
        facts: [
          out === null || back === null
            ? ''
            : t('miles.odometer', {
                out: figureInWords(out, language, 1),
                back: figureInWords(back, language, 1),
              }),
          words,
          t('loads.by', { name: row.by_name }),
        ].filter(Boolean),
        mayUndo: seesCosts(account) || row.made_by === account.id,
      }),
    ),
    inAll:
      rows.length > 1
        ? far(sumOf(rows.map(({ distance }) => new Decimal(distance))).toFixed(1), rows[0]!.unit)
        : '',
    vehicles: await findVehicles(db),
    key: randomUUID(),
  }
}
