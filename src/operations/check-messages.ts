import { type Check, good, type LookedAt, look, wrong } from './check.ts'
import { findUnsent } from './unsent.ts'

/** Sending goes on by itself every quarter of an hour; what waits longer than this waits for something. */
const TOO_LONG = { hours: 1 }

/** Whether what is to be said gets out: how much waits, since when, and what the last fault was. */
export async function checkMessages({ config, db, now }: LookedAt): Promise<Check> {
  const unsent = await findUnsent({ config, db, now })
  const { waiting, by_hand: byHand, stopped, given_up: givenUp, oldest_mail: oldest } = unsent
  if (!config.smtpUrl)
    return look(
      'Messages',
      `${counted(byHand)} waiting for you to send. There’s no mail server.`,
      'Send them by hand from the page Outbox, or set SMTP_URL.',
    )
  const forYou = byHand > 0 ? ` ${byHand} for you to send,` : ''
  const says = `${counted(waiting)} waiting,${forYou} ${stopped} not accepted, ${givenUp} given up after three days.`
  if (oldest && Temporal.Instant.compare(oldest, now().subtract(TOO_LONG)) < 0)
    return wrong(
      'Messages',
      `${says} The oldest email has waited since ${Temporal.Instant.from(oldest).round('minute')}.`,
      'The page Outbox says why. Try the mail server with the command "test-mail".',
    )
  if (stopped + givenUp > 0) return look('Messages', says, 'The page Outbox says why, and what to do.')
  return good('Messages', says)
}

function counted(count: number): string {
  return count === 1 ? '1 message is' : `${count} messages are`
}
