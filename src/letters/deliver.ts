import { isUnconfirmed } from '../outbox/message.ts'
import { findOutboxMessage, markFault, markSent, markWaiting } from '../outbox/queries.ts'
import { faultOf, HOUR_FULL, isStopped, NO_ADDRESS, OUT_OF_DATE, TOO_MANY } from './faults.ts'
import { type LetterDeps, writeLetter } from './letter.ts'
import { giveBack, reserve } from './mail-limits.ts'
import type { Mailer } from './smtp.ts'

/** What became of a message: there is nothing more to do, it is given up, or it has to be tried again. */
export type Outcome = 'done' | 'stopped' | 'again'

/**
 * Writes one message of the outbox, sends it, and notes how that went. A repeat after a lost answer carries the
 * same Message-ID, by which mail programs know it for the same mail. More than may go out in an hour are held back.
 */
export async function deliver(deps: LetterDeps, mailer: Mailer, outboxId: string): Promise<Outcome> {
  const row = await findOutboxMessage(deps.db, outboxId)
  if (!row || row.sent_at) return 'done'
  const letter = await writeLetter(deps, row)
  if (!letter?.to.address) return giveUp(deps, outboxId, letter ? NO_ADDRESS : OUT_OF_DATE)
  const to = { address: letter.to.address, unconfirmed: isUnconfirmed(row) }
  const reserved = await reserve(deps.db, deps.secretKey, to, deps.now())
  if (reserved === 'stopped') return giveUp(deps, outboxId, TOO_MANY)
  if (reserved === 'waits') {
    await markWaiting(deps.db, outboxId, HOUR_FULL)
    return 'again'
  }
  try {
    await mailer.send(letter, `<${outboxId}@${new URL(deps.config.publicUrl).hostname}>`, row.made_at)
  } catch (error) {
    const fault = faultOf(error)
    await giveBack(deps.db, reserved)
    await markFault(deps.db, outboxId, fault)
    return isStopped(fault) ? 'stopped' : 'again'
  }
  await markSent(deps.db, outboxId, deps.now())
  return 'done'
}

async function giveUp(deps: LetterDeps, outboxId: string, fault: string): Promise<Outcome> {
  await markFault(deps.db, outboxId, fault)
  return 'stopped'
}
