import { createTransport } from 'nodemailer'
import type { Letter } from './letter.ts'

const SECONDS = 1000

export interface Mailer {
  /** Hands a letter to the mail server. @throws as nodemailer does; `faultOf` puts it into a word */
  send(letter: Letter, messageId: string, writtenAt: string): Promise<void>
  close(): void
}

/** Sends by the mail server of an `smtp:` or `smtps:` address. */
export function smtpMailer(smtpUrl: string): Mailer {
  const transport = createTransport({
    url: smtpUrl,
    dnsTimeout: 10 * SECONDS,
    connectionTimeout: 10 * SECONDS,
    greetingTimeout: 10 * SECONDS,
    socketTimeout: 30 * SECONDS,
    disableFileAccess: true,
    disableUrlAccess: true,
  })
  return {
    send: async (letter, messageId, writtenAt) => {
      const headers = { 'Auto-Submitted': 'auto-generated' }
      await transport.sendMail({ ...letter, messageId, date: writtenAt, headers })
    },
    close: () => transport.close(),
  }
}
