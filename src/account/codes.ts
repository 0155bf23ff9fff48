import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import type { Account } from '../http/signed-in.ts'
import { endAuthenticator, takeCode } from './authenticator.ts'
import type { CodeProof } from './check-code.ts'
import { countRecoveryCodes, makeRecoveryCodes } from './recovery-codes.ts'
import { asksForCode, endRecoveryCodes, endSecondFactor, lockSecondFactor } from './second-factor.ts'
import { deleteOtherSessions } from './session-queries.ts'
import { clearFailures, countAttempt, togetherHash } from './sign-in-delays.ts'

/** Codes from an app are asked for from now on; recovery codes are told this once, unless some are left that stand in for passkeys already. */
export type TurnedOn = { ok: true; codes: string[] | null } | Exclude<CodeProof, { ok: true }>

/**
 * Turns on the app that is being set up, by its first code, and ends all sessions but the one of `keptHash`, which came in without a code,
 * unless a passkey was asked for before. Asked twice, the second code is as wrong as any other.
 */
export async function turnCodesOn(
  deps: Deps,
  account: Account,
  typed: string,
  keptHash: string,
): Promise<TurnedOn> {
  const who = togetherHash(deps.secretKey, `first codes of ${account.id}`)
  const waitSeconds = await countAttempt(deps.db, who, deps.now())
  if (waitSeconds > 0) return { ok: false, wrong: 'code', waitSeconds }
  const code = typed.slice(0, 100).replace(/[\s-]/g, '')
  return deps.db.transaction().execute(async trx => {
    await lockSecondFactor(trx, account.id)
    const isFirst = !(await asksForCode(trx, account.id))
    if (!(await takeCode(deps, trx, account.id, code, true)))
      return { ok: false, wrong: 'code', waitSeconds: 0 }
    if (isFirst) await deleteOtherSessions(trx, account.id, keptHash)
    await clearFailures(trx, who, deps.now())
    if ((await countRecoveryCodes(trx, account.id)) > 0) return { ok: true, codes: null }
    return { ok: true, codes: await makeRecoveryCodes(trx, deps.secretKey, account.id) }
  })
}

/**
 * Makes somebody's recovery codes anew, and tells them this once; the ones before work no more.
 * @throws {Conflict} where the password alone signs in
 */
export async function renewRecoveryCodes({ db, secretKey }: Deps, accountId: number): Promise<string[]> {
  return db.transaction().execute(async trx => {
    await lockSecondFactor(trx, accountId)
    if (!(await asksForCode(trx, accountId))) throw new Conflict('account.codes-are-off')
    return makeRecoveryCodes(trx, secretKey, accountId)
  })
}

/** Asks somebody for no codes of an app any more; gives whether the password alone signs in now. Asked again, it does nothing more. */
export async function turnCodesOff({ db }: Deps, accountId: number): Promise<boolean> {
  return db.transaction().execute(async trx => {
    await lockSecondFactor(trx, accountId)
    await endAuthenticator(trx, accountId)
    return endRecoveryCodes(trx, accountId)
  })
}

/**
 * Asks one of the staff, who lost the phone, for neither codes nor passkeys any more.
 * @throws {NotFound} when there is nobody of that number, or it is the owner
 */
export async function turnCodesOffFor(deps: Deps, id: number): Promise<void> {
  const other = await deps.db
    .selectFrom('account')
    .select('id')
    .where('id', '=', id)
    .where('role', '<>', 'owner')
    .executeTakeFirst()
  if (!other) throw new NotFound()
  await deps.db.transaction().execute(trx => endSecondFactor(trx, id))
}
