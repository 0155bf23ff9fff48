import type { Deps } from '../deps.ts'
import type { Translate } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import type { Message } from '../outbox/message.ts'
import type { AccountMessage, ForStaff } from '../outbox/to-account.ts'
import { findInvitationMail } from './invitation-queries.ts'
import { invitationAddress } from './invitations.ts'
import { findToken } from './mailed-links.ts'
import { findMailTo } from './queries.ts'

/** A mail about signing in: to whom, in which language, and what it says. */
export interface MailToStaff {
  to: { name: string; address: string }
  language: Language
  write(t: Translate, business: string): Message
}

/** A mail of the outbox about signing in as things stand; null when its link leads nowhere any more. */
export async function mailToStaff(deps: Deps, row: ForStaff): Promise<MailToStaff | null> {
  return row.recipient === 'invited' ? toInvited(deps, row) : toAccount(deps, row)
}

async function toInvited(deps: Deps, row: ForStaff): Promise<MailToStaff | null> {
  const found = await findInvitationMail(deps.db, row.id, deps.now().toString())
  if (!found) return null
  const { name, email, role, language, nonce } = found
  const address = invitationAddress(deps, nonce)
  return {
    to: { name, address: email },
    language,
    write: (t, business) => ({
      subject: t('account.mail-invited', { business }),
      paragraphs: [t(INVITED[role], { business }), t('account.mail-invited-lasts')],
      facts: [],
      link: { words: t('account.invitation-accept'), address },
      brief: '',
    }),
  }
}

const INVITED = { helper: 'account.mail-invited-say', office: 'account.mail-invited-office' } as const

async function toAccount(deps: Deps, row: ForStaff): Promise<MailToStaff | null> {
  const kind = row.kind as AccountMessage
  const account = await findMailTo(deps.db, row.account_id!)
  const token = account && (await findToken(deps, kind, account.id, row.made_at))
  if (!account || !token) return null
  const { name, email, language } = account
  const address = `${deps.config.publicUrl}${PATHS[kind]}/${token}`
  return { to: { name, address: email }, language, write: t => WRITERS[kind](email, address, t) }
}

const PATHS: Record<AccountMessage, string> = {
  'password-link': '/new-password',
  'sign-in-link': '/sign-in-link',
}

const WRITERS: Record<AccountMessage, (email: string, address: string, t: Translate) => Message> = {
  'password-link': (email, address, t) => ({
    subject: t('account.mail-password'),
    paragraphs: [
      t('account.mail-password-for', { email }),
      t('account.mail-lasts'),
      t('account.mail-password-not-you'),
    ],
    facts: [],
    link: { words: t('account.reset'), address },
    brief: '',
  }),
  'sign-in-link': (email, address, t) => ({
    subject: t('account.mail-guessed'),
    paragraphs: [
      t('account.mail-guessed-for', { email }),
      t('account.mail-guessed-safe'),
      t('account.mail-guessed-link'),
      t('account.mail-lasts'),
    ],
    facts: [],
    link: { words: t('account.sign-in'), address },
    brief: '',
  }),
}
