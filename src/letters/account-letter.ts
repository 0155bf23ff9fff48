import { mailToStaff } from '../account/mails.ts'
import { findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { translator } from '../language/catalogue.ts'
import { isGivenUp, OUT_OF_DATE } from '../outbox/given-up.ts'
import { markFault, markSent } from '../outbox/queries.ts'
import type { ForStaff } from '../outbox/to-account.ts'
import { faultOf } from './faults.ts'
import { laidOut, type Mail } from './letter.ts'
import type { Mailer } from './smtp.ts'

/** What became of a message: there is nothing more to do, it is given up, or it has to be tried again. */
export type Outcome = 'done' | 'stopped' | 'again'

/**
 * Sends a mail about signing in. It isn't counted with the others of the hour: few are written, and many requests of
 * strangers must not keep the staff out.
 */
export async function deliverToStaff(deps: Deps, mailer: Mailer, row: ForStaff): Promise<Outcome> {
  if (row.sent_at || isGivenUp(row.last_fault)) return 'done'
  const letter = await writeToStaff(deps, row)
  if (!letter) {
    await markFault(deps.db, row.id, OUT_OF_DATE)
    return 'stopped'
  }
  try {
    const messageId = `<${row.id}@${new URL(deps.config.publicUrl).hostname}>`
    await mailer.send(letter, messageId, row.made_at)
  } catch (error) {
    const fault = faultOf(error)
    await markFault(deps.db, row.id, fault)
    return isGivenUp(fault) ? 'stopped' : 'again'
  }
  await markSent(deps.db, row.id, deps.now())
  return 'done'
}

async function writeToStaff(deps: Deps, row: ForStaff): Promise<Mail | null> {
  const business = await findBusiness(deps.db)
  const mail = business && (await mailToStaff(deps, row))
  if (!mail) return null
  const { to, language } = mail
  const t = translator(language, business.country)
  const greeting = t('mail.hello', { name: to.name })
  return laidOut(deps, mail.write(t, business.name), { to, greeting, business, language })
}
