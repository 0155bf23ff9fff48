import { findBusiness } from '../business/queries.ts'
import { faultOf } from '../letters/faults.ts'
import { smtpMailer } from '../letters/smtp.ts'
import { newNonce } from '../lib/tokens.ts'
import { type AtStore, type Command, CommandFault } from './command.ts'

/** One mail by the real mail server. */
export const testMail: Command = {
  name: 'test-mail',
  takes: 'ADDRESS',
  least: 1,
  most: 1,
  summary: 'send one email by the mail server that is set',
  help: [
    'Sends a short email to ADDRESS by SMTP_URL, from the address of your business, and says whether the server took it.',
    'A running Bedwright with the embedded store sends it with the settings it was started with.',
  ],
  atStore: (at, { to }) => sendTest(at, to!),
  async run(here, { words: [to] }) {
    if (!/^[^\s@<>",;]+@[^\s@<>",;]+$/.test(to!)) throw new CommandFault(`"${to}" isn’t an email address.`)
    for await (const piece of here.ask({ to: to! })) here.out.write(piece)
  },
}

async function* sendTest({ config, store, now }: AtStore, to: string): AsyncGenerator<string> {
  if (!config.smtpUrl) throw new CommandFault('SMTP_URL isn’t set, so no email is sent.')
  const business = await findBusiness(store.db)
  const { hostname } = new URL(config.publicUrl)
  const from = { name: business?.name ?? 'Bedwright', address: business?.email || `no-reply@${hostname}` }
  const text = 'This is a test. If you can read it, Bedwright can send email.\n'
  const mail = {
    to: { name: '', address: to },
    from,
    subject: 'Test from Bedwright',
    text,
    html: `<p>${text}</p>`,
    entry: null,
    stop: null,
  }
  const mailer = smtpMailer(config.smtpUrl)
  try {
    await mailer.send(mail, `<test-${newNonce()}@${hostname}>`, now().toString())
  } catch (error) {
    throw new CommandFault(
      `The mail server at ${new URL(config.smtpUrl).host} didn’t take it (${faultOf(error)}).`,
    )
  } finally {
    mailer.close()
  }
  yield `The mail server took it. Look whether it arrives, and whether among the junk.\n`
}
