import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { keepLink, mailLink } from './mailed-links.ts'
import { findHelpers } from './queries.ts'

/** How the owner's link for a helper goes: by mail, not again in this hour, or to be passed on by hand. */
export type LinkForHelper =
  | { goes: 'by mail' | 'not again'; email: string }
  | { goes: 'by hand'; name: string; address: string }

/**
 * Gives a helper a link to choose a new password: by mail, or where none is sent an address to pass on.
 * @throws {NotFound} when there is no such helper
 */
export async function linkForHelper(deps: Deps, id: number): Promise<LinkForHelper> {
  const helper = (await findHelpers(deps.db)).find(one => one.id === id)
  if (!helper) throw new NotFound()
  const { email, name } = helper
  if (deps.config.smtpUrl) {
    const isMailed = await mailLink(deps, 'password-link', id)
    return { goes: isMailed ? 'by mail' : 'not again', email }
  }
  const token = await deps.db.transaction().execute(trx => keepLink(trx, deps, 'password-link', id))
  return { goes: 'by hand', name, address: `${deps.config.publicUrl}/new-password/${token}` }
}
