import { sql, type Transaction } from 'kysely'
import type { SentByStranger } from '../../db/schema/junk.ts'
import type { Way } from '../../db/schema/letters.ts'
import type { Database } from '../../db/schema.ts'
import type { Deps } from '../../deps.ts'
import { CLEARLY_FROM } from '../../junk/score.ts'
import { dayOf } from '../../lib/dates.ts'
import { hashSecret, linkToken } from '../../lib/tokens.ts'
import { choiceOf } from '../../outbox/choices.ts'
import { hasGateway } from '../../outbox/gateway.ts'
import { putHeldForOwner, putWasItYou } from '../../outbox/of-held.ts'
import { customerKeys } from '../../places/recognition.ts'

/** How many are asked in an hour by the clock, whoever they are; and each address or phone once in a day of UTC. */
export const ASKED_AN_HOUR = 20

/** What was just held. */
interface Held {
  id: number
  nonce: string
  points: number
  sending: Pick<SentByStranger, 'email' | 'phone'>
}

/**
 * Asks whoever sent what is held whether it was them, by mail, or by text where only a phone is known: unless it is clearly junk, that is switched off, there is
 * nothing to send it by, they asked to be left in peace, or enough were asked. What was typed goes along in no word, so nobody can have us send words to a stranger.
 */
export async function askWhetherReal(
  trx: Transaction<Database>,
  deps: Deps,
  held: Held,
  country: string,
  at: Temporal.Instant,
): Promise<void> {
  if (held.points >= CLEARLY_FROM || (await choiceOf(trx, 'was-it-you')) === 'off') return
  if (await wantsPeace(trx, held.sending, country)) return
  const way = await wayTo(trx, deps, held.sending)
  if (!way || !(await mayAsk(trx, deps, held.sending[way === 'mail' ? 'email' : 'phone'], at))) return
  await trx
    .updateTable('maybe_junk')
    .set({ asked_hash: hashSecret(linkToken(deps.secretKey, 'email address', held.nonce)) })
    .where('id', '=', held.id)
    .execute()
  await putWasItYou(trx, deps.jobs, held.id, way, at)
}

/** Mails the owner that something is held, at most once in a day of the business's. */
export async function tellOwner(
  trx: Transaction<Database>,
  deps: Deps,
  timeZone: string,
  at: Temporal.Instant,
): Promise<void> {
  if (deps.config.smtpUrl) await putHeldForOwner(trx, deps.jobs, `held ${dayOf(at, timeZone)}`, at)
}

async function wantsPeace(
  trx: Transaction<Database>,
  sending: Held['sending'],
  country: string,
): Promise<boolean> {
  const { phone_key, email_key } = customerKeys(sending, country)
  const row = await trx
    .selectFrom('customer')
    .select('id')
    .where(eb => eb.or([eb('phone_key', '=', phone_key), eb('email_key', '=', email_key)]))
    .where('quiet_since', 'is not', null)
    .executeTakeFirst()
  return row !== undefined
}

async function wayTo(
  trx: Transaction<Database>,
  deps: Deps,
  { email, phone }: Held['sending'],
): Promise<Way | null> {
  if (email !== '') return deps.config.smtpUrl ? 'mail' : null
  return phone !== '' && (await hasGateway(trx)) ? 'text' : null
}

// Counted beside the mails of an hour, in the same table, which is swept after a day.
async function mayAsk(
  trx: Transaction<Database>,
  deps: Deps,
  to: string,
  at: Temporal.Instant,
): Promise<boolean> {
  const plain = to.includes('@') ? to.toLowerCase().replace(/\+[^@]*(?=@)/, '') : to.replace(/\D/g, '')
  const day = `${at.toString().slice(0, 10)}T00:00:00Z`
  const hour = at.round({ smallestUnit: 'hour', roundingMode: 'floor' }).toString()
  const isFirst = await count(trx, linkToken(deps.secretKey, 'asked whether real', plain), day, 1)
  return isFirst && (await count(trx, 'asked whether real', hour, ASKED_AN_HOUR))
}

async function count(
  trx: Transaction<Database>,
  counted: string,
  from: string,
  most: number,
): Promise<boolean> {
  const { rows } = await sql`
    insert into mail_hour as m (counted, hour, mails) values (${counted}, ${from}::timestamptz, 1)
    on conflict (counted, hour) do update set mails = m.mails + 1 where m.mails < ${most}::integer
    returning mails`.execute(trx)
  return rows.length > 0
}
