import { once } from 'node:events'
import type { AddressInfo } from 'node:net'
import { type ParsedMail, simpleParser } from 'mailparser'
import { SMTPServer, type SMTPServerAddress } from 'smtp-server'

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
  /** How often somebody began a mail with it. */
  tries: number
  stop(): Promise<void>
}

/** A real mail server in this process, which keeps what it is sent; on a port of its own unless one is given. */
export async function startMailServer(
  refuse: (recipient: string) => SmtpRefusal | null = () => null,
  port = 0,
): Promise<MailServer> {
  const letters: ParsedMail[] = []
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS', 'AUTH'],
    onRcptTo: ({ address }: SMTPServerAddress, _session, done) => {
      mailServer.tries += 1
      const refusal = refuse(address)
      done(refusal ? Object.assign(new Error(refusal.words), { responseCode: refusal.code }) : null)
    },
    onData: (stream, _session, done) => {
      simpleParser(stream).then(letter => {
        letters.push(letter)
        done()
      }, done)
    },
  })
  const listening = server.listen(port, '127.0.0.1')
  await once(listening, 'listening')
  const actual = (listening.address() as AddressInfo).port
  const mailServer: MailServer = {
    url: `smtp://127.0.0.1:${actual}`,
    port: actual,
    letters,
    tries: 0,
    stop: () => new Promise(resolve => server.close(() => resolve())),
  }
  return mailServer
}
