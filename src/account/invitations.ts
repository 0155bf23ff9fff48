import { sql, type Transaction } from 'kysely'
import type { GivenRole } from '../db/schema/accounts.ts'
import type { Database } from '../db/schema.ts'
import { isUniqueViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { hashSecret, linkToken, newNonce } from '../lib/tokens.ts'
import { putForInvited } from '../outbox/to-account.ts'
import type { Invited, NewAccount } from './form.ts'
import { findInvitations } from './invitation-queries.ts'
import { type Lasting, USUAL } from './lasting.ts'
import { hashPassword } from './password.ts'
import { findAccountByEmail, insertAccount } from './queries.ts'
import { type Here, type SignedIn, startSessionIn } from './sign-in.ts'

const LASTS = { hours: 24 * 7 }

/** Where an invitation was taken: a helper has the phone in the truck, and not always a password at hand. */
const LASTING: Record<GivenRole, Lasting> = { helper: { days: 90, idleDays: 90 }, office: USUAL }

/**
 * Asks somebody to help, or into the office, by a link that is good for a week, once; mails it where there is an address and a mail server.
 * Asked again for the same address, the earlier one ends. Gives its number.
 * @throws {Conflict} when somebody signs in with that address already
 */
export async function invite(deps: Deps, ownerId: number, { name, email, role, language }: Invited) {
  const { db, secretKey, now, config, jobs } = deps
  const nonce = newNonce()
  return db.transaction().execute(async trx => {
    await lockInvitations(trx)
    if (email && (await findAccountByEmail(trx, email))) throw new Conflict('account.email-taken')
    await trx
      .deleteFrom('invitation')
      .where(eb =>
        eb.or([
          eb('ends_at', '<=', now().toString()),
          eb.and([eb('email', '<>', ''), eb(eb.fn<string>('lower', ['email']), '=', email.toLowerCase())]),
        ]),
      )
      .execute()
    const { id } = await trx
      .insertInto('invitation')
      .values({
        name,
        email,
        role,
        language,
        nonce,
        token_hash: hashSecret(invitationToken(secretKey, nonce)),
        made_at: now().toString(),
        ends_at: now().add(LASTS).toString(),
        made_by: ownerId,
      })
      .returning('id')
      .executeTakeFirstOrThrow()
    if (email && config.smtpUrl) await putForInvited(trx, jobs, id, now())
    return id
  })
}

/**
 * An open invitation with its address, to be passed on.
 * @throws {NotFound} when there is none of this number any more
 */
export async function requireInvitation({ db, secretKey, now, config }: Deps, id: number) {
  const invitation = (await findInvitations(db, now().toString())).find(one => one.id === id)
  if (!invitation) throw new NotFound()
  const { name, email, role, nonce } = invitation
  return { id, name, email, role, address: invitationAddress({ config, secretKey }, nonce) }
}

/** Where the link of an invitation leads. */
export function invitationAddress({ config, secretKey }: Pick<Deps, 'config' | 'secretKey'>, nonce: string) {
  return `${config.publicUrl}/invitation/${invitationToken(secretKey, nonce)}`
}

/** Takes an invitation back; one that is gone is not missed. */
export async function takeInvitationBack(deps: Deps, id: number): Promise<void> {
  await deps.db.deleteFrom('invitation').where('id', '=', id).execute()
}

/**
 * Makes the account of somebody who was invited, with the password that they chose, and signs this browser in, a helper's for long.
 * @throws {NotFound} when the invitation was used, taken back or has expired
 * @throws {Conflict} when somebody signs in with that address already
 */
export async function acceptInvitation(
  deps: Deps,
  token: string,
  { name, email, password }: NewAccount,
  here: Here,
): Promise<SignedIn> {
  const password_hash = await hashPassword(password)
  const now = deps.now()
  try {
    return await deps.db.transaction().execute(async trx => {
      await lockInvitations(trx)
      const used = await trx
        .deleteFrom('invitation')
        .where('token_hash', '=', hashSecret(token))
        .where('ends_at', '>', now.toString())
        .returning('role')
        .executeTakeFirst()
      if (!used) throw new NotFound()
      const { role } = used
      const row = { name, email, role, password_hash, made_at: now.toString() }
      const { id } = await insertAccount(trx, row)
      const session = await startSessionIn(trx, now, { id, password_hash }, here, LASTING[role])
      return { account: { id, role }, session: session! }
    })
  } catch (error) {
    if (isUniqueViolation(error, 'account_email')) throw new Conflict('account.email-taken')
    throw error
  }
}

// Of two who invite the same person at once, the second ends what the first made.
async function lockInvitations(trx: Transaction<Database>): Promise<void> {
  await sql`select pg_advisory_xact_lock(hashtext('invitations'))`.execute(trx)
}

function invitationToken(secretKey: string, nonce: string): string {
  return linkToken(secretKey, 'invitation', nonce)
}
