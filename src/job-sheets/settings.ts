import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { addDays, weekdayOf } from '../lib/dates.ts'

/** How job sheets are reckoned; see JobSheetSettingsTable. */
export interface SheetSettings {
  barrow: string
  digWaitDays: number | null
  digValidDays: number | null
  digSource: string
}

/** A contractor's barrow, heaped: 6 ft³, or 170 L. Common practice of the trade, no source. */
const BARROW = { us: '6', metric: '0.17' }

/** Those of the owner, else what it starts with. */
export async function findSheetSettings(
  db: Kysely<Database>,
  units: keyof typeof BARROW,
): Promise<SheetSettings> {
  const row = await db.selectFrom('job_sheet_settings').selectAll().executeTakeFirst()
  if (!row) return { barrow: BARROW[units], digWaitDays: null, digValidDays: null, digSource: '' }
  const { barrow, dig_wait_days, dig_valid_days, dig_source } = row
  return { barrow, digWaitDays: dig_wait_days, digValidDays: dig_valid_days, digSource: dig_source }
}

export function readSheetSettings(fields: FormFields): FormReading<SheetSettings> {
  const barrow = fields.figure('barrow', {
    ...{ places: 3, above: 0, most: 1000 },
    missing: 'Say how much a wheelbarrow holds.',
    outside: 'Give a size above zero.',
  })
  const days = (name: string, least: number, most: number) =>
    fields.wholeNumber(name, { least, most, outside: `Give a number of days from ${least} to ${most}.` })
  return fields.reading({
    barrow: barrow ?? '1',
    digWaitDays: days('digWaitDays', 0, 60),
    digValidDays: days('digValidDays', 1, 400),
    digSource: fields.line('digSource', { most: 200, tooLong: 'Keep it under 200 characters.' }),
  })
}

export async function changeSheetSettings(deps: Deps, by: number, settings: SheetSettings): Promise<void> {
  const row = {
    barrow: settings.barrow,
    dig_wait_days: settings.digWaitDays,
    dig_valid_days: settings.digValidDays,
    dig_source: settings.digSource,
    saved_at: deps.now().toString(),
    saved_by: by,
  }
  await deps.db
    .insertInto('job_sheet_settings')
    .values(row)
    .onConflict(conflict => conflict.column('only').doUpdateSet(row))
    .execute()
}

/** The dates between which a ticket requested on a day is good by these settings; null where they don't say. */
export function ticketDates(
  { digWaitDays, digValidDays }: SheetSettings,
  requested: string,
): { from: string; until: string } | null {
  if (digWaitDays === null || digValidDays === null) return null
  let from = requested
  for (let left = digWaitDays; left > 0; ) {
    from = addDays(from, 1)
    if (weekdayOf(from) <= 5) left -= 1
  }
  return { from, until: addDays(from, digValidDays - 1) }
}
