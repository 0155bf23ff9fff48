import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import type { Account } from '../http/signed-in.ts'
import { endAuthenticator, takeCode } from './authenticator.ts'
import type { CodeProof } from './check-code.ts'
import { makeRecoveryCodes } from './recovery-codes.ts'
import { deleteOtherSessions } from './session-queries.ts'
import { clearFailures, countAttempt, togetherHash } from './sign-in-delays.ts'

/** Codes from an app are asked for from now on; these recovery codes are told this once. */
export type TurnedOn = { ok: true; codes: string[] } | Exclude<CodeProof, { ok: true }>

/**
 * Turns on the app that is being set up, by its first code, and ends all sessions but the one of `keptHash`, which came in without a code. Asked
 * twice, the second code is as wrong as any other.
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
  const codes = await deps.db.transaction().execute(async trx => {
    if (!(await takeCode(deps, trx, account.id, code, true))) return null
    await deleteOtherSessions(trx, account.id, keptHash)
    await clearFailures(trx, who, deps.now())
    return makeRecoveryCodes(trx, deps.secretKey, account.id)
  })
  return codes ? { ok: true, codes } : { ok: false, wrong: 'code', waitSeconds: 0 }
}

/**
 * Makes somebody's recovery codes anew, and tells them this once; the ones before work no more.
 * @throws {Conflict} where no codes are asked for
 */
export async function renewRecoveryCodes({ db, secretKey }: Deps, accountId: number): Promise<string[]> {
  return db.transaction().execute(async trx => {
    const on = await trx
      .selectFrom('authenticator')
      .select('account_id')
      .where('account_id', '=', accountId)
      .where('on_at', 'is not', null)
      .forUpdate()
      .executeTakeFirst()
    if (!on) throw new Conflict('account.codes-are-off')
    return makeRecoveryCodes(trx, secretKey, accountId)
  })
}

/** Asks somebody for no codes any more; asked again, it does nothing more. */
export async function turnCodesOff({ db }: Deps, accountId: number): Promise<void> {
  await db.transaction().execute(trx => endAuthenticator(trx, accountId))
}

/**
 * The same for one of the staff who lost the phone.
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
  await turnCodesOff(deps, id)
}
