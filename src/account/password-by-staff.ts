import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { keepLink, mailLink } from './mailed-links.ts'
import { findOthers } from './queries.ts'

/** How the owner's link for somebody of the staff goes: by mail, not again in this hour, or to be passed on by hand. */
export type LinkForStaff =
  | { goes: 'by mail' | 'not again'; email: string }
  | { goes: 'by hand'; name: string; address: string }

/**
 * Gives somebody of the staff a link to choose a new password: by mail, or where none is sent an address to pass on.
 * @throws {NotFound} when there is nobody of that number besides the owner
 */
export async function linkForStaff(deps: Deps, id: number): Promise<LinkForStaff> {
  const account = (await findOthers(deps.db)).find(one => one.id === id)
  if (!account) throw new NotFound()
  const { email, name } = account
  if (deps.config.smtpUrl) {
    const isMailed = await mailLink(deps, 'password-link', id)
    return { goes: isMailed ? 'by mail' : 'not again', email }
  }
  const token = await deps.db.transaction().execute(trx => keepLink(trx, deps, 'password-link', id))
  return { goes: 'by hand', name, address: `${deps.config.publicUrl}/new-password/${token}` }
}
