import { writeForAccount } from '../account/mails.ts'
import { findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { translator } from '../language/catalogue.ts'
import { isGivenUp, OUT_OF_DATE } from '../outbox/given-up.ts'
import { markFault, markSent } from '../outbox/queries.ts'
import { type ForAccount, findForAccount } from '../outbox/to-account.ts'
import { faultOf } from './faults.ts'
import { laidOut, type Mail } from './letter.ts'
import type { Mailer } from './smtp.ts'

/** What became of a message: there is nothing more to do, it is given up, or it has to be tried again. */
export type Outcome = 'done' | 'stopped' | 'again'

/**
 * Sends a mail to one of the staff about signing in. It isn't counted with the others of the hour: few are written, and
 * many requests of strangers must not keep the staff out.
 */
export async function deliverToAccount(deps: Deps, mailer: Mailer, outboxId: string): Promise<Outcome> {
  const row = await findForAccount(deps.db, outboxId)
  if (!row || row.sent_at || isGivenUp(row.last_fault)) return 'done'
  const letter = await writeAccountLetter(deps, row)
  if (!letter) {
    await markFault(deps.db, outboxId, OUT_OF_DATE)
    return 'stopped'
  }
  try {
    const messageId = `<${outboxId}@${new URL(deps.config.publicUrl).hostname}>`
    await mailer.send(letter, messageId, row.made_at)
  } catch (error) {
    const fault = faultOf(error)
    await markFault(deps.db, outboxId, fault)
    return isGivenUp(fault) ? 'stopped' : 'again'
  }
  await markSent(deps.db, outboxId, deps.now())
  return 'done'
}

async function writeAccountLetter(deps: Deps, row: ForAccount): Promise<Mail | null> {
  const business = await findBusiness(deps.db)
  if (!business) return null
  const t = translator(row.language, business.country)
  const message = await writeForAccount(deps, row, t)
  return (
    message &&
    laidOut(deps, message, {
      to: { name: row.name, address: row.email },
      greeting: t('mail.hello', { name: row.name }),
      business,
      language: row.language,
    })
  )
}
