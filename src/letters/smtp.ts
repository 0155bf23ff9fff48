import { BlockList, isIP } from 'node:net'
import { createTransport } from 'nodemailer'
import { mailedEntry } from '../outbox/calendar.ts'
import type { Mail } from './letter.ts'

const SECONDS = 1000

/** For how long a mail server is waited for, in milliseconds: until it greets, and until it answers. */
const PATIENCE = { greeting: 10 * SECONDS, answer: 30 * SECONDS }

export interface Mailer {
  /** Hands a mail to the mail server. @throws as nodemailer does; `faultOf` puts it into a word */
  send(mail: Mail, messageId: string, writtenAt: string): Promise<void>
  close(): void
}

/**
 * Sends by the mail server of an `smtp:` or `smtps:` address. Nothing goes to another machine before the connection is
 * encrypted and the server's certificate is found good, unless the address says `?tls=no`.
 */
export function smtpMailer(smtpUrl: string, patience = PATIENCE): Mailer {
  const transport = createTransport({
    ...serverOf(smtpUrl),
    dnsTimeout: 10 * SECONDS,
    connectionTimeout: 10 * SECONDS,
    greetingTimeout: patience.greeting,
    socketTimeout: patience.answer,
    disableFileAccess: true,
    disableUrlAccess: true,
  })
  return {
    send: async ({ to, from, subject, text, html, entry, stop }, messageId, writtenAt) => {
      const icalEvent = entry
        ? { ...mailedEntry(entry, { from, to }, Temporal.Instant.from(writtenAt)), filename: 'calendar.ics' }
        : undefined
      // One press in the mail program is enough (RFC 8058).
      const stopping = stop && {
        'List-Unsubscribe': `<${stop}>`,
        'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click',
      }
      const headers = { 'Auto-Submitted': 'auto-generated', ...stopping }
      // A text would be sent as it is, and mail programs don't read ISO 8601.
      const date = new Date(Temporal.Instant.from(writtenAt).epochMilliseconds)
      await transport.sendMail({ to, from, subject, text, html, icalEvent, messageId, date, headers })
    },
    close: () => transport.close(),
  }
}

// nodemailer would read the address too, but lets what stands behind its ? switch anything off.
function serverOf(smtpUrl: string) {
  const { protocol, hostname, port, username, password, searchParams } = new URL(smtpUrl)
  const host = hostname.replace(/^\[|\]$/g, '')
  const ignoreTLS = searchParams.get('tls') === 'no'
  return {
    host,
    port: port ? Number(port) : undefined,
    secure: protocol === 'smtps:',
    requireTLS: protocol === 'smtp:' && !ignoreTLS && !isLoopback(host),
    ignoreTLS,
    auth: username || password ? { user: decoded(username), pass: decoded(password) } : undefined,
  }
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part)
  } catch {
    return part
  }
}

const loopback = new BlockList()
loopback.addSubnet('127.0.0.0', 8)
loopback.addAddress('::1', 'ipv6')

/** Whether a host is this machine: by its name, so that no name server can make another machine pass for it. */
export function isLoopback(host: string): boolean {
  const version = isIP(host)
  if (version === 0) return host.toLowerCase() === 'localhost'
  return loopback.check(host, version === 6 ? 'ipv6' : 'ipv4')
}
