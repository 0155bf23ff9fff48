import { findGateway } from '../outbox/gateway.ts'
import { isGivenUp, NO_ADDRESS, TOO_MANY, TOO_MANY_TEXTS } from '../outbox/given-up.ts'
import { isUnconfirmed } from '../outbox/message.ts'
import { findOfHeld } from '../outbox/of-held.ts'
import { findOutboxMessage, markFault, markSent, markWaiting, type OutboxMessage } from '../outbox/queries.ts'
import { findForStaff } from '../outbox/to-account.ts'
import { deliverToStaff, type Outcome } from './account-letter.ts'
import { faultOf, HOUR_FULL, QUIET_HOURS } from './faults.ts'
import { mailOfHeld, textOfHeld } from './held-letter.ts'
import { DAYTIME, isWithin, keepsHours } from './hours.ts'
import { type Letter, type LetterDeps, writeLetter } from './letter.ts'
import { type Counted, giveBack, reserve } from './mail-limits.ts'
import { whyOvertaken } from './overtaken.ts'
import type { Mailer } from './smtp.ts'
import { digitsOf, gatewayFaultOf, sendText } from './text-gateway.ts'

/** How one message goes: where to, and what does it. */
interface Sending {
  to: Counted
  /** What is said of it when too many went to the same in this hour. */
  tooMany: string
  send(): Promise<void>
  /** What went wrong, as a word of faults.ts. */
  faultOf(error: unknown): string
}

/**
 * Writes one message of the outbox, sends it by mail, and notes how that went. A repeat after a lost answer carries the
 * same Message-ID, by which mail programs know it for the same mail. More than may go out in an hour are held back.
 */
export async function deliver(deps: LetterDeps, mailer: Mailer, outboxId: string): Promise<Outcome> {
  const toStaff = await findForStaff(deps.db, outboxId)
  if (toStaff) return deliverToStaff(deps, mailer, toStaff)
  const ofHeld = await findOfHeld(deps.db, outboxId)
  if (ofHeld) return mailOfHeld(deps, mailer, ofHeld)
  return deliverBy(deps, outboxId, (letter, row) => {
    const messageId = `<${outboxId}@${new URL(deps.config.publicUrl).hostname}>`
    return (
      letter.to.address !== '' && {
        to: { address: letter.to.address, unconfirmed: isUnconfirmed(row) },
        tooMany: TOO_MANY,
        send: () => mailer.send(letter, messageId, row.made_at),
        faultOf,
      }
    )
  })
}

/** The same of a text, by the gateway; where there is none any more it waits to be passed on by hand. */
export async function deliverText(deps: LetterDeps, outboxId: string): Promise<Outcome> {
  const gateway = await findGateway(deps.db, deps.secretKey)
  if (!gateway) return 'done'
  const ofHeld = await findOfHeld(deps.db, outboxId)
  if (ofHeld) return textOfHeld(deps, gateway, ofHeld)
  return deliverBy(deps, outboxId, ({ words }, row) => {
    const phone = digitsOf(row.phone)
    return (
      phone !== '' && {
        to: { phone },
        tooMany: TOO_MANY_TEXTS,
        send: () => sendText(deps, gateway, row, words),
        faultOf: gatewayFaultOf,
      }
    )
  })
}

async function deliverBy(
  deps: LetterDeps,
  outboxId: string,
  sendingOf: (letter: Letter, row: OutboxMessage) => Sending | false,
): Promise<Outcome> {
  const row = await findOutboxMessage(deps.db, outboxId)
  if (!row || row.sent_at || isGivenUp(row.last_fault)) return 'done'
  const letter = await writeLetter(deps, row)
  const sending = letter && sendingOf(letter, row)
  if (!sending) return giveUp(deps, outboxId, letter ? NO_ADDRESS : await whyOvertaken(deps, row))
  if (keepsHours(row.kind) && !isWithin(deps.now(), letter.timeZone, DAYTIME)) {
    await markWaiting(deps.db, outboxId, QUIET_HOURS)
    return 'again'
  }
  const reserved = await reserve(deps.db, deps.secretKey, sending.to, deps.now())
  if (reserved === 'stopped') return giveUp(deps, outboxId, sending.tooMany)
  if (reserved === 'waits') {
    await markWaiting(deps.db, outboxId, HOUR_FULL)
    return 'again'
  }
  try {
    await sending.send()
  } catch (error) {
    const fault = sending.faultOf(error)
    await giveBack(deps.db, reserved)
    await markFault(deps.db, outboxId, fault)
    return isGivenUp(fault) ? 'stopped' : 'again'
  }
  await markSent(deps.db, outboxId, deps.now())
  return 'done'
}

async function giveUp(deps: LetterDeps, outboxId: string, fault: string): Promise<Outcome> {
  await markFault(deps.db, outboxId, fault)
  return 'stopped'
}
