import type { Deps } from '../deps.ts'
import { hasApp } from './authenticator.ts'
import { optionsToProve } from './prove-by-passkey.ts'
import { asksForCode } from './second-factor.ts'

/** What a page asks somebody for besides the password. */
export interface AskedFor {
  /** Whether codes of an app are taken, and not recovery codes alone. */
  hasApp: boolean
  /** What a browser needs to answer with a passkey, as JSON; null where none is kept, or none can be used here. */
  passkey: string | null
}

/** What somebody is asked for; null where the password alone does. */
export async function askedFor(deps: Deps, accountId: number): Promise<AskedFor | null> {
  if (!(await asksForCode(deps.db, accountId))) return null
  return { hasApp: await hasApp(deps.db, accountId), passkey: await optionsToProve(deps, accountId) }
}

/** The scripts of a page that asks for it. */
export function scriptsFor(asked: AskedFor | null): string[] {
  return asked?.passkey ? ['passkey.js'] : []
}
