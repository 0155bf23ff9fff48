import { beginAuthenticator } from '../../src/account/authenticator.ts'
import { invite, requireInvitation } from '../../src/account/invitations.ts'
import { offerPasswordReset } from '../../src/account/password-reset.ts'
import type { TestApp } from '../helpers/app.ts'
import { signInLinkPath, withMailServer } from '../helpers/mailed-links.ts'
import { passkeyOf } from '../helpers/passkeys.ts'
import { provedNow } from '../helpers/people.ts'

/** The pages that let somebody in without the password; the last one ends every session of the owner. */
export function accountPages(app: TestApp, ownerId: number) {
  const { deps } = app
  const invited = () =>
    provedNow(app).then(() =>
      invite(deps, ownerId, { name: 'Ida Fern', email: '', role: 'office', language: 'en' }),
    )
  const invitation = async () => new URL((await requireInvitation(deps, await invited())).address).pathname
  const eachBegins = async () => {
    for (const { id } of await app.db.selectFrom('account').select('id').execute())
      await beginAuthenticator(deps, id)
  }
  return {
    '/password/codes': [
      async () => {
        await provedNow(app)
        await app.db.deleteFrom('authenticator').execute()
        return '/password/codes'
      },
      async () => {
        await eachBegins()
        return '/password/codes'
      },
      async () => {
        await eachBegins()
        await app.db.updateTable('authenticator').set({ on_at: deps.now().toString() }).execute()
        return '/password/codes'
      },
    ],
    '/password/passkeys': [
      async () => {
        await provedNow(app)
        return '/password/passkeys'
      },
      async () => {
        await app.db.insertInto('passkey').values(passkeyOf(ownerId, deps.now())).execute()
        return '/password/passkeys'
      },
    ],
    '/password/again': [
      async () => {
        await app.db.deleteFrom('passkey').execute()
        await app.db.deleteFrom('authenticator').execute()
        await app.db.updateTable('session').set({ proved_at: null }).execute()
        return '/password/again?back=/days'
      },
      async () => {
        await app.db.insertInto('passkey').values(passkeyOf(ownerId, deps.now())).execute()
        return '/password/again?back=/days'
      },
    ],
    '/settings': [
      async () => {
        await app.db.deleteFrom('passkey').execute()
        await invited()
        return '/settings'
      },
    ],
    '/settings/invitations/:id': [() => invited().then(id => `/settings/invitations/${id}`)],
    '/invitation/:token': [invitation],
    '/sign-in-link/:token': [() => signInLinkPath(app, ownerId)],
    '/forgot-password': [() => '/forgot-password', () => withMailServer(app, '/forgot-password')],
    '/new-password/:token': [
      async () => `/new-password/${(await offerPasswordReset(app.db, app.deps.now()))!.token}`,
    ],
  }
}
