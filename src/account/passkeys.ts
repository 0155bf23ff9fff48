import type { Kysely } from 'kysely'
import { findBusiness } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import type { Account } from '../http/signed-in.ts'
import { linkToken } from '../lib/tokens.ts'
import { type KeptAnswer, readKept } from './passkey-answer.ts'
import { isChallenge, newChallenge, useChallenge } from './passkey-challenge.ts'
import { passkeySite } from './passkey-site.ts'
import { countRecoveryCodes, makeRecoveryCodes } from './recovery-codes.ts'
import { asksForCode, endRecoveryCodes, lockSecondFactor } from './second-factor.ts'
import { deleteOtherSessions } from './session-queries.ts'

export const MOST_PASSKEYS = 20
// EdDSA, ES256 and RS256, which every device has one of (RFC 8152, RFC 8812).
const ALGORITHMS = [-8, -7, -257]

/**
 * What came of a new passkey: kept, with recovery codes where there were none, told this once; nothing new, as it is kept already; or refused.
 */
export type Kept = { ok: true; codes: string[] | null } | { ok: false; why: 'refused' | 'many' }

/** Somebody's passkeys, the oldest first. */
export async function findPasskeys(db: Kysely<Database>, accountId: number) {
  return db
    .selectFrom('passkey')
    .select(['id', 'credential_id', 'transports', 'name', 'made_at', 'used_at'])
    .where('account_id', '=', accountId)
    .orderBy('id')
    .execute()
}

/** What a browser needs to make a passkey for somebody, as JSON; null where there can be none. */
export async function optionsToKeep(deps: Deps, account: Account): Promise<string | null> {
  const site = passkeySite(deps.config.publicUrl)
  if (!site) return null
  // It takes 30 MB, which installations without passkeys don't need.
  const { generateRegistrationOptions } = await import('@simplewebauthn/server')
  const business = await findBusiness(deps.db)
  const options = await generateRegistrationOptions({
    rpID: site.id,
    rpName: business?.name || 'Bedwright',
    userName: account.email,
    userDisplayName: account.name,
    userID: Buffer.from(linkToken(deps.secretKey, 'passkey user', String(account.id)), 'base64url'),
    challenge: newChallenge(deps, account.id, 'keep'),
    excludeCredentials: (await findPasskeys(deps.db, account.id)).map(named),
    // Where it isn't preferred, some phones make one that is lost with them.
    supportedAlgorithmIDs: ALGORITHMS,
    authenticatorSelection: { residentKey: 'preferred', userVerification: 'preferred' },
  })
  return JSON.stringify(options)
}

/**
 * Keeps a new passkey of somebody who is signed in. The first thing that is asked for besides a password ends all sessions but the one of `keptHash`, which
 * came in without it. What a browser answered is taken once.
 */
export async function keepPasskey(
  deps: Deps,
  account: Account,
  name: string,
  typed: string,
  keptHash: string,
): Promise<Kept> {
  const answer = readKept(typed)
  const made = answer && (await verified(deps, account.id, answer))
  if (!made) return { ok: false, why: 'refused' }
  return deps.db.transaction().execute(async trx => {
    await lockSecondFactor(trx, account.id)
    const own = await findPasskeys(trx, account.id)
    if (own.some(({ credential_id }) => credential_id === made.id)) return { ok: true, codes: null }
    if (own.length >= MOST_PASSKEYS) return { ok: false, why: 'many' }
    if (!(await useChallenge(trx, deps, made.challenge))) return { ok: false, why: 'refused' }
    const isFirst = !(await asksForCode(trx, account.id))
    const { numInsertedOrUpdatedRows } = await trx
      .insertInto('passkey')
      .values({
        account_id: account.id,
        credential_id: made.id,
        public_key: Buffer.from(made.publicKey).toString('base64url'),
        counter: made.counter,
        transports: answer.response.transports.join(' '),
        name,
        made_at: deps.now().toString(),
      })
      .onConflict(conflict => conflict.doNothing())
      .executeTakeFirstOrThrow()
    if (numInsertedOrUpdatedRows !== 1n) return { ok: false, why: 'refused' }
    if (isFirst) await deleteOtherSessions(trx, account.id, keptHash)
    if ((await countRecoveryCodes(trx, account.id)) > 0) return { ok: true, codes: null }
    return { ok: true, codes: await makeRecoveryCodes(trx, deps.secretKey, account.id) }
  })
}

/** Asks somebody for a passkey no more; gives whether the password alone signs in now. Asked again, it does nothing more. */
export async function removePasskey(deps: Deps, accountId: number, id: number): Promise<boolean> {
  return deps.db.transaction().execute(async trx => {
    await lockSecondFactor(trx, accountId)
    await trx.deleteFrom('passkey').where('account_id', '=', accountId).where('id', '=', id).execute()
    return endRecoveryCodes(trx, accountId)
  })
}

/** How a passkey is named to a browser, with the ways to reach it. */
export function named({ credential_id, transports }: { credential_id: string; transports: string }) {
  return { id: credential_id, transports: transports.split(' ').filter(Boolean) }
}

async function verified(deps: Deps, accountId: number, response: KeptAnswer) {
  const site = passkeySite(deps.config.publicUrl)
  if (!site) return null
  const { verifyRegistrationResponse } = await import('@simplewebauthn/server')
  let challenge = ''
  try {
    const { registrationInfo } = await verifyRegistrationResponse({
      response,
      expectedChallenge: answered => {
        challenge = answered
        return isChallenge(deps, accountId, 'keep', answered)
      },
      expectedOrigin: site.origin,
      expectedRPID: site.id,
      requireUserVerification: false,
      supportedAlgorithmIDs: ALGORITHMS,
    })
    return registrationInfo ? { ...registrationInfo.credential, challenge } : null
  } catch {
    return null
  }
}
