import type { Kysely } from 'kysely'
import { json } from '../../db/json.ts'
import type { SentByStranger } from '../../db/schema/junk.ts'
import type { Database } from '../../db/schema.ts'
import { severalLines } from '../../lib/typed-text.ts'
import { LONGEST_NOTE } from '../enough-today.ts'

/** What a homeowner may change on the own page before somebody has looked. */
export type Change = { phone: string } | { note: string }

/**
 * Changes what was sent; the same note again, as by a second press, changes nothing. Nobody is told. Gives whether it is there still.
 */
export async function changeMaybeJunk(db: Kysely<Database>, id: number, change: Change): Promise<boolean> {
  return db.transaction().execute(async trx => {
    const row = await trx
      .selectFrom('maybe_junk')
      .select('sending')
      .where('id', '=', id)
      .forUpdate()
      .executeTakeFirst()
    if (!row) return false
    const sending = changed(row.sending, change)
    await trx
      .updateTable('maybe_junk')
      .set({ sending: json(sending) })
      .where('id', '=', id)
      .execute()
    return true
  })
}

function changed(sending: SentByStranger, change: Change): SentByStranger {
  if ('phone' in change) return { ...sending, phone: change.phone }
  const { note } = sending
  const words = severalLines(change.note)
  if (note === words || note.endsWith(`\n\n${words}`)) return sending
  const whole = note === '' ? words : `${note}\n\n${words}`
  return whole.length > LONGEST_NOTE ? sending : { ...sending, note: whole }
}
