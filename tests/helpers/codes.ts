import { TOTP } from 'otpauth'
import { beginAuthenticator, findBegun, takeCode } from '../../src/account/authenticator.ts'
import { makeRecoveryCodes } from '../../src/account/recovery-codes.ts'
import type { TestApp } from './app.ts'

/** The code that an app shows, so many steps of 30 seconds from the clock. */
export function codeOf(app: TestApp, secret: string, steps = 0): string {
  return new TOTP({ secret }).generate({ timestamp: app.deps.now().epochMilliseconds + steps * 30_000 })
}

/** Has an account asked for codes, none of which was used yet; gives the app's secret and the recovery codes. */
export async function withCodes(app: TestApp, email: string) {
  const { db, deps } = app
  const account = await db
    .selectFrom('account')
    .select(['id', 'email'])
    .where('email', '=', email)
    .executeTakeFirstOrThrow()
  await db.deleteFrom('authenticator').where('account_id', '=', account.id).execute()
  await beginAuthenticator(deps, account.id)
  const { secret } = (await findBegun(deps, account, 'Fern Beds'))!
  await takeCode(deps, db, account.id, codeOf(app, secret), true)
  await db.updateTable('authenticator').set({ last_step: 0 }).execute()
  const recovery = await db.transaction().execute(trx => makeRecoveryCodes(trx, deps.secretKey, account.id))
  return { id: account.id, secret, recovery }
}
