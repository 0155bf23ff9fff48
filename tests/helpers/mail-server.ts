import { once } from 'node:events'
import type { AddressInfo } from 'node:net'
import { type ParsedMail, simpleParser } from 'mailparser'
import { SMTPServer, type SMTPServerAddress } from 'smtp-server'
import { CERTIFICATE, ITS_KEY } from './certificate.ts'

/** An answer other than yes, to one recipient. */
export interface SmtpRefusal {
  code: number
  words: string
}

export interface MailServer {
  url: string
  port: number
  /** What it took in, in order. */
  letters: ParsedMail[]
  /** Of each of them, whether it came over an encrypted connection. */
  encrypted: boolean[]
  /** How often somebody began a mail with it. */
  tries: number
  stop(): Promise<void>
}

/**
 * A real mail server in this process, which keeps what it is sent; on a port of its own unless one is given. It listens
 * on this machine alone, or at 0.0.0.0, which reaches this machine too but is not known for it; `tls` offers STARTTLS. Of
 * the first `drops` mails it takes in the connection breaks before it says so.
 */
export async function startMailServer(
  refuse: (recipient: string) => SmtpRefusal | null = () => null,
  port = 0,
  { host = '127.0.0.1', tls = false, drops = 0 } = {},
): Promise<MailServer> {
  const letters: ParsedMail[] = []
  const encrypted: boolean[] = []
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: tls ? ['AUTH'] : ['STARTTLS', 'AUTH'],
    ...(tls ? { key: ITS_KEY, cert: CERTIFICATE } : {}),
    onRcptTo: ({ address }: SMTPServerAddress, _session, done) => {
      mailServer.tries += 1
      const refusal = refuse(address)
      done(refusal ? Object.assign(new Error(refusal.words), { responseCode: refusal.code }) : null)
    },
    onData: (stream, session, done) => {
      encrypted.push(session.secure)
      simpleParser(stream).then(letter => {
        letters.push(letter)
        if (letters.length <= drops) for (const { _socket } of server.connections) _socket.destroy()
        else done()
      }, done)
    },
  })
  // A client that doesn't trust the certificate breaks off.
  server.on('error', () => {})
  const listening = server.listen(port, host)
  await once(listening, 'listening')
  const actual = (listening.address() as AddressInfo).port
  const mailServer: MailServer = {
    url: `smtp://${host}:${actual}`,
    port: actual,
    letters,
    encrypted,
    tries: 0,
    stop: () => new Promise(resolve => server.close(() => resolve())),
  }
  return mailServer
}
