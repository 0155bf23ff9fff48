import type { Deps } from '../deps.ts'
import type { Translate } from '../language/catalogue.ts'
import type { Message } from '../outbox/message.ts'
import type { AccountMessage, ForAccount } from '../outbox/to-account.ts'
import { findToken } from './mailed-links.ts'

/** Writes a mail to one of the staff as things stand; null when its link leads nowhere any more. */
export async function writeForAccount(deps: Deps, row: ForAccount, t: Translate): Promise<Message | null> {
  const kind = row.kind as AccountMessage
  const token = await findToken(deps, kind, row.account_id, row.made_at)
  return token === null
    ? null
    : WRITERS[kind](row.email, `${deps.config.publicUrl}${PATHS[kind]}/${token}`, t)
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
    brief: t('account.mail-password'),
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
    brief: t('account.mail-guessed'),
  }),
}
