import type { Deps } from '../deps.ts'
import { mailLink } from './mailed-links.ts'
import { findAccountByEmail } from './queries.ts'
import { countAttempt, togetherHash } from './sign-in-delays.ts'

const FREE_ASKS = 10

/**
 * Has a link to choose a new password mailed, if somebody signs in with that address; what it gives and how long it
 * takes doesn't tell. A network that asks a lot has to wait: so many seconds, else 0.
 */
export async function askForPassword(deps: Deps, email: string, network: string): Promise<number> {
  const who = togetherHash(deps.secretKey, `asks for a password from ${network}`)
  const waitSeconds = await countAttempt(deps.db, who, deps.now(), FREE_ASKS)
  if (waitSeconds > 0) return waitSeconds
  const account = await findAccountByEmail(deps.db, email)
  await mailLink(deps, 'password-link', account?.id)
  return 0
}
