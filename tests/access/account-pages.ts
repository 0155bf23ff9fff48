import { offerPasswordReset } from '../../src/account/password-reset.ts'
import type { TestApp } from '../helpers/app.ts'
import { signInLinkPath, withMailServer } from '../helpers/mailed-links.ts'

/** The pages that let somebody in without the password; the last one ends every session of the owner. */
export function accountPages(app: TestApp, ownerId: number) {
  return {
    '/sign-in-link/:token': [() => signInLinkPath(app, ownerId)],
    '/forgot-password': [() => '/forgot-password', () => withMailServer(app, '/forgot-password')],
    '/new-password/:token': [
      async () => `/new-password/${(await offerPasswordReset(app.db, app.deps.now()))!.token}`,
    ],
  }
}
