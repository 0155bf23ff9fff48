import { keepLink } from '../../src/account/mailed-links.ts'
import { deliver } from '../../src/letters/deliver.ts'
import type { Mail } from '../../src/letters/letter.ts'
import { messages } from '../../src/messages.ts'
import type { TestApp } from './app.ts'

/** Where a link leads that signs somebody in. */
export async function signInLinkPath(app: TestApp, accountId: number): Promise<string> {
  const { db, deps } = app
  const token = await db.transaction().execute(trx => keepLink(trx, deps, 'sign-in-link', accountId))
  return `/sign-in-link/${token}`
}

/** Has an application send mail, to nowhere; gives what it is given. */
export function withMailServer(app: TestApp, path: string): string {
  app.deps.config = { ...app.deps.config, smtpUrl: 'smtp://mail.example' }
  return path
}

/** Sends the mails to the staff that wait in the outbox, oldest first; gives them. */
export async function mailsToStaff(app: TestApp): Promise<Mail[]> {
  const sent: Mail[] = []
  const mailer = { send: async (mail: Mail) => void sent.push(mail), close: () => {} }
  const waiting = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('recipient', 'in', ['account', 'invited'])
    .where('sent_at', 'is', null)
    .where('last_fault', 'is', null)
    .orderBy('made_at')
    .execute()
  for (const { id } of waiting) await deliver({ ...app.deps, messages }, mailer, id)
  return sent
}

/** The path of the one link in a mail. */
export function pathIn(mail: Mail | undefined): string {
  const [address, ...others] = mail?.text.match(/https?:\/\/\S+/g) ?? []
  if (!address || others.length > 0) throw new Error(`Not one link in: ${mail?.text}`)
  return new URL(address).pathname
}
