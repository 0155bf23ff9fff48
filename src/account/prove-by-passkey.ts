import type { Deps } from '../deps.ts'
import { type ProvedAnswer, readProved } from './passkey-answer.ts'
import { isChallenge, newChallenge, useChallenge } from './passkey-challenge.ts'
import { passkeySite } from './passkey-site.ts'
import { findPasskeys, named } from './passkeys.ts'

/** What a browser needs to answer with one of somebody's passkeys, as JSON; null where none is kept, or none can be used here. */
export async function optionsToProve(deps: Deps, accountId: number): Promise<string | null> {
  const site = passkeySite(deps.config.publicUrl)
  const passkeys = site ? await findPasskeys(deps.db, accountId) : []
  if (!site || passkeys.length === 0) return null
  const { generateAuthenticationOptions } = await import('@simplewebauthn/server')
  const options = await generateAuthenticationOptions({
    rpID: site.id,
    allowCredentials: passkeys.map(named),
    challenge: newChallenge(deps, accountId, 'prove'),
    userVerification: 'preferred',
  })
  return JSON.stringify(options)
}

/**
 * Takes what a browser answered with a passkey of this account: for a challenge of ours that wasn't answered before, and with a counter that went up, if the
 * passkey has one. The database decides both. Gives whether all of it was so.
 */
export async function takePasskey(deps: Deps, accountId: number, typed: string): Promise<boolean> {
  const answer = readProved(typed)
  const passkey =
    answer &&
    (await deps.db
      .selectFrom('passkey')
      .select(['id', 'credential_id', 'public_key', 'counter'])
      .where('account_id', '=', accountId)
      .where('credential_id', '=', answer.id)
      .executeTakeFirst())
  const proof = passkey && (await verified(deps, accountId, answer, passkey))
  if (!proof) return false
  const { counter, challenge } = proof
  return deps.db.transaction().execute(async trx => {
    if (!(await useChallenge(trx, deps, challenge))) return false
    const { numUpdatedRows } = await trx
      .updateTable('passkey')
      .set({ counter, used_at: deps.now().toString() })
      .where('id', '=', passkey.id)
      .where(eb =>
        eb.or([eb('counter', '<', counter), eb.and([eb('counter', '=', 0), eb.lit(counter === 0)])]),
      )
      .executeTakeFirstOrThrow()
    return numUpdatedRows === 1n
  })
}

async function verified(
  deps: Deps,
  accountId: number,
  response: ProvedAnswer,
  { credential_id, public_key, counter }: { credential_id: string; public_key: string; counter: number },
) {
  const site = passkeySite(deps.config.publicUrl)
  if (!site) return null
  const { verifyAuthenticationResponse } = await import('@simplewebauthn/server')
  let challenge = ''
  try {
    const { verified: isRight, authenticationInfo } = await verifyAuthenticationResponse({
      response,
      expectedChallenge: answered => {
        challenge = answered
        return isChallenge(deps, accountId, 'prove', answered)
      },
      expectedOrigin: site.origin,
      expectedRPID: site.id,
      credential: { id: credential_id, publicKey: Buffer.from(public_key, 'base64url'), counter },
      requireUserVerification: false,
    })
    return isRight ? { counter: authenticationInfo.newCounter, challenge } : null
  } catch {
    return null
  }
}
