import type { Deps } from '../deps.ts'
import { linkToken, sameSecret } from '../lib/tokens.ts'
import { findForCode } from './queries.ts'

const LASTS = { minutes: 10 }

/** What the page that asks for a code carries: that the password was right just now. It signs nobody in. */
export function halfToken(deps: Deps, account: { id: number; password_hash: string }): string {
  const until = deps.now().add(LASTS).epochMilliseconds
  return `${account.id}.${until}.${markOf(deps, account, until)}`
}

/** Whose password was right; undefined after ten minutes, once it is another one, or where nothing of it is true. */
export async function findHalfSignedIn(deps: Deps, token: string) {
  const [, id, until, mark] = /^(\d{1,15})\.(\d{1,15})\.([\w-]{43})$/.exec(token) ?? []
  if (!mark || Number(until) <= deps.now().epochMilliseconds) return undefined
  const account = await findForCode(deps.db, Number(id))
  return account && sameSecret(mark, markOf(deps, account, Number(until))) ? account : undefined
}

function markOf(
  { secretKey }: Deps,
  { id, password_hash }: { id: number; password_hash: string },
  until: number,
): string {
  return linkToken(secretKey, 'half signed in', `${id}\n${until}\n${password_hash}`)
}
