import { sql } from 'kysely'
import { halfToken } from '../../src/account/half-signed-in.ts'
import { invitationAddress, invite } from '../../src/account/invitations.ts'
import { keepLink } from '../../src/account/mailed-links.ts'
import { insertAccount } from '../../src/account/queries.ts'
import { startSessionIn } from '../../src/account/sign-in.ts'
import type { TestApp } from '../helpers/app.ts'
import { withCodes } from '../helpers/codes.ts'
import { provedAhead, type Race } from './race.ts'
import type { Sent } from './two-services.ts'

const PASSWORDS = ['seven wet barrows of bark', 'nine dry sacks of compost'] as const

/** What there is of the account with a mail address, and of invitations to it. */
async function accountOf({ db }: TestApp, email: string): Promise<string[]> {
  const { rows } = await sql<{ what: string }>`
    with mine as (select * from account where email in (${email}, 'other.' || ${email}))
    select concat_ws(' ', 'account', role, case when ended_at is not null then 'ended' end) as what from mine
    union all select 'invitation' from invitation where email = ${email}
    union all select 'session' from session where account_id in (select id from mine)
    union all select 'recovery code' from recovery_code where account_id in (select id from mine)
    union all select 'role changed' from role_change where account_id in (select id from mine)
    order by what`.execute(db)
  return rows.map(({ what }) => what)
}

/** An invitation to this address, and its forms. */
const invited = async (app: TestApp, cookie: string, email: string) => {
  await provedAhead(app)
  const asked = { name: 'Ivy Reed', email, role: 'helper', language: 'en' } as const
  const id = await invite(app.deps, 1, asked)
  const { nonce } = await app.db
    .selectFrom('invitation')
    .select('nonce')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  const path = new URL(invitationAddress(app.deps, nonce)).pathname
  return {
    path,
    take: (address: string, password: string): Sent => ({
      path,
      form: { name: 'Ivy Reed', email: address, password },
    }),
    takeBack: { path: `/settings/invitations/${id}/take-back`, form: {}, cookie } as Sent,
    again: {
      ...{ path: '/settings/invitations', cookie },
      form: {
        ...{ 'invite.name': 'Ivy Reed', 'invite.email': email },
        ...{ 'invite.role': 'helper', 'invite.language': 'en' },
      },
    } as Sent,
  }
}

/** Somebody who helps, and is signed in. */
const member = async (app: TestApp, cookie: string, email: string) => {
  await provedAhead(app)
  const now = app.deps.now()
  // No password ever fits it.
  const password_hash = `$argon2id$v=19$m=19456,t=2,p=1$${'A'.repeat(22)}$${'A'.repeat(43)}`
  const { id, session } = await app.db.transaction().execute(async trx => {
    const row = { name: 'Ivy Reed', email, role: 'helper' as const, password_hash, made_at: now.toString() }
    const account = await insertAccount(trx, row)
    const here = {
      ...{ name: { browser: null, system: null }, oldSecret: undefined },
      language: 'en' as const,
    }
    return {
      id: account.id,
      session: await startSessionIn(trx, now, { id: account.id, password_hash }, here),
    }
  })
  // It lasts by the clock of the other process too.
  const ahead = { ...app.deps, now: () => app.deps.now().add({ hours: 12 }) }
  const link = (kind: 'password-link' | 'sign-in-link') =>
    app.db.transaction().execute(trx => keepLink(trx, ahead, kind, id))
  const byOwner = (does: string, form: Record<string, string> = {}): Sent => ({
    ...{ path: `/settings/staff/${id}/${does}`, cookie },
    form,
  })
  return {
    half: () => halfToken(app.deps, { id, password_hash }),
    own: `session=${session!.secret}`,
    link,
    byOwner,
  }
}

const HELPER = 'account helper'

/** Invitations, links and codes that are good once, and what becomes of an account meanwhile. */
export const ACCOUNT_RACES: Race[] = [
  {
    name: 'taking an invitation for one address and another',
    forms: async (app, cookie, email) => {
      const { take } = await invited(app, cookie, email)
      return [take(email, PASSWORDS[0]), take(`other.${email}`, PASSWORDS[1])]
    },
    besides: accountOf,
    ...{ onlyOne: true, ends: true },
    outcomes: [{ stages: [], besides: [HELPER, 'session'] }],
  },
  {
    name: 'taking an invitation while it is taken back',
    forms: async (app, cookie, email) => {
      const { take, takeBack } = await invited(app, cookie, email)
      return [take(email, PASSWORDS[0]), takeBack]
    },
    besides: accountOf,
    ends: true,
    outcomes: [
      { stages: [], besides: [HELPER, 'session'] },
      { stages: [], besides: [] },
    ],
  },
  {
    name: 'inviting the same person again, twice at once',
    forms: async (app, cookie, email) => [(await invited(app, cookie, email)).again],
    besides: accountOf,
    outcomes: [{ stages: [], besides: ['invitation'] }],
  },
  {
    name: 'inviting somebody again while the invitation is taken',
    forms: async (app, cookie, email) => {
      const { take, again } = await invited(app, cookie, email)
      return [take(email, PASSWORDS[0]), again]
    },
    besides: accountOf,
    ...{ onlyOne: true, ends: true },
    outcomes: [
      { stages: [], besides: [HELPER, 'session'] },
      { stages: [], besides: ['invitation'] },
    ],
  },
  {
    name: 'choosing one new password and another by a link',
    forms: async (app, cookie, email) => {
      const { link } = await member(app, cookie, email)
      const path = `/new-password/${await link('password-link')}`
      return PASSWORDS.map(password => ({ path, form: { fresh: password } }))
    },
    besides: accountOf,
    shows: true,
    outcomes: [{ stages: [], besides: [HELPER] }],
  },
  {
    name: 'signing in by a link, from two browsers',
    forms: async (app, cookie, email) => {
      const { link } = await member(app, cookie, email)
      const path = `/sign-in-link/${await link('sign-in-link')}`
      return [{ path, form: {} }]
    },
    besides: accountOf,
    ends: true,
    outcomes: [{ stages: [], besides: [HELPER, 'session', 'session'] }],
  },
  {
    name: 'signing in with one recovery code, from two browsers',
    forms: async (app, cookie, email) => {
      const { half } = await member(app, cookie, email)
      const { recovery } = await withCodes(app, email)
      return [{ path: '/sign-in/code', form: { half: half(), code: recovery[0]!, back: '' } }]
    },
    besides: accountOf,
    ends: true,
    outcomes: [
      {
        stages: [],
        besides: [HELPER, ...Array.from({ length: 9 }, () => 'recovery code'), 'session', 'session'],
      },
    ],
  },
  {
    name: 'making recovery codes anew, the same form',
    forms: async (app, cookie, email) => {
      const { own } = await member(app, cookie, email)
      await withCodes(app, email)
      return [{ path: '/password/codes/recovery', form: {}, cookie: own }]
    },
    besides: accountOf,
    shows: true,
    outcomes: [
      { stages: [], besides: [HELPER, ...Array.from({ length: 10 }, () => 'recovery code'), 'session'] },
    ],
  },
  {
    name: 'giving somebody another role and removing them',
    forms: async (app, cookie, email) => {
      const { byOwner } = await member(app, cookie, email)
      return [byOwner('role', { role: 'office' }), byOwner('remove')]
    },
    besides: accountOf,
    ends: true,
    outcomes: [
      { stages: [], besides: ['account office ended', 'role changed'] },
      { stages: [], besides: ['account helper ended'] },
    ],
  },
  {
    name: 'removing somebody while they sign in by a link, and choose a password by another',
    forms: async (app, cookie, email) => {
      const { byOwner, link } = await member(app, cookie, email)
      const signIn = { path: `/sign-in-link/${await link('sign-in-link')}`, form: {} }
      const choose = {
        path: `/new-password/${await link('password-link')}`,
        form: { fresh: PASSWORDS[0] },
      }
      return [byOwner('remove'), signIn, choose]
    },
    besides: accountOf,
    ends: true,
    outcomes: [{ stages: [], besides: ['account helper ended'] }],
  },
]
