import { invite, requireInvitation } from '../../src/account/invitations.ts'
import { offerPasswordReset } from '../../src/account/password-reset.ts'
import type { TestApp } from '../helpers/app.ts'
import { signInLinkPath, withMailServer } from '../helpers/mailed-links.ts'
import { provedNow } from '../helpers/people.ts'

/** The pages that let somebody in without the password; the last one ends every session of the owner. */
export function accountPages(app: TestApp, ownerId: number) {
  const { deps } = app
  const invited = () =>
    provedNow(app).then(() => invite(deps, ownerId, { name: 'Ida Fern', email: '', language: 'en' }))
  const invitation = async () => new URL((await requireInvitation(deps, await invited())).address).pathname
  return {
    '/password/again': [
      async () => {
        await app.db.updateTable('session').set({ proved_at: null }).execute()
        return '/password/again?back=/days'
      },
    ],
    '/settings': [() => invited().then(() => '/settings')],
    '/settings/invitations/:id': [() => invited().then(id => `/settings/invitations/${id}`)],
    '/invitation/:token': [invitation],
    '/sign-in-link/:token': [() => signInLinkPath(app, ownerId)],
    '/forgot-password': [() => '/forgot-password', () => withMailServer(app, '/forgot-password')],
    '/new-password/:token': [
      async () => `/new-password/${(await offerPasswordReset(app.db, app.deps.now()))!.token}`,
    ],
  }
}
