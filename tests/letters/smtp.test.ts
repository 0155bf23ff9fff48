import tls from 'node:tls'
import { afterEach, expect, test } from 'vitest'
import { faultInWords, faultOf, NO_TLS, NOT_TRUSTED } from '../../src/letters/faults.ts'
import { isLoopback, smtpMailer } from '../../src/letters/smtp.ts'
import { CERTIFICATE } from '../helpers/certificate.ts'
import { type MailServer, startMailServer } from '../helpers/mail-server.ts'

const ANYWHERE = '0.0.0.0'
const TRUSTED = tls.getCACertificates('default')
const servers: MailServer[] = []

afterEach(async () => {
  tls.setDefaultCACertificates(TRUSTED)
  await Promise.all(servers.splice(0).map(server => server.stop()))
})

async function serverThat(how: { host?: string; tls?: boolean }): Promise<MailServer> {
  const server = await startMailServer(undefined, 0, how)
  servers.push(server)
  return server
}

/** Sends a letter; gives the word of what went wrong, or null. */
async function sendTo(smtpUrl: string): Promise<string | null> {
  const mailer = smtpMailer(smtpUrl)
  const letter = {
    to: { name: '', address: 'carol@example.com' },
    from: { name: 'Fern Beds', address: 'hello@fernbeds.example' },
    subject: 'We have it',
    text: 'Hello,',
    html: '<p>Hello,</p>',
    entry: null,
    stop: null,
  }
  try {
    await mailer.send(letter, '<1@fernbeds.example>', '2026-03-02T15:00:00.5Z')
    return null
  } catch (error) {
    return faultOf(error)
  } finally {
    mailer.close()
  }
}

test('the date is written as mail programs read it, and is the moment at which the letter was caused', async () => {
  const server = await serverThat({})
  expect(await sendTo(server.url)).toBeNull()
  const { line } = server.letters[0]!.headerLines.find(({ key }) => key === 'date')!
  // RFC 5322, section 3.3: date-time. March 2, 2026 is a Monday.
  expect(line).toBe('Date: Mon, 02 Mar 2026 15:00:00 +0000')
})

test('to another machine nothing goes that is not encrypted, and it says why', async () => {
  const server = await serverThat({ host: ANYWHERE })
  const fault = await sendTo(server.url)
  expect(fault).toBe(NO_TLS)
  expect(faultInWords(fault, 1)).toMatch(/doesn’t use encryption.*keep trying/)
  expect(server.letters).toEqual([])
})

test('a server whose certificate is trusted gets it encrypted; any other gets nothing', async () => {
  const server = await serverThat({ host: ANYWHERE, tls: true })
  expect(await sendTo(server.url)).toBe(NOT_TRUSTED)
  expect(server.letters).toEqual([])
  tls.setDefaultCACertificates([...TRUSTED, CERTIFICATE])
  expect(await sendTo(server.url)).toBeNull()
  expect(server.encrypted).toEqual([true])
})

test('a trusted certificate that is another server’s is none', async () => {
  const server = await serverThat({ tls: true })
  tls.setDefaultCACertificates([...TRUSTED, CERTIFICATE])
  expect(await sendTo(server.url)).toBe(NOT_TRUSTED)
})

test('?tls=no sends it as it is, whatever the server offers', async () => {
  for (const offers of [true, false]) {
    const server = await serverThat({ host: ANYWHERE, tls: offers })
    expect(await sendTo(`${server.url}?tls=no`)).toBeNull()
    expect(server.encrypted).toEqual([false])
  }
})

test('to this machine itself nothing has to be encrypted', async () => {
  const server = await serverThat({})
  for (const host of ['localhost', '127.0.0.1']) {
    expect(await sendTo(`smtp://${host}:${server.port}`)).toBeNull()
  }
  expect(server.encrypted).toEqual([false, false])
})

test('this machine is known by its name alone', () => {
  const ours = ['localhost', 'LOCALHOST', '127.0.0.1', '127.8.9.1', '::1', '0:0:0:0:0:0:0:1']
  const others = ['', '0.0.0.0', '::', '128.0.0.1', 'localhost.example', '127.0.0.1.example', 'mail.example']
  expect([...ours, ...others].filter(isLoopback)).toEqual(ours)
})

test('nothing else behind the address switches the encryption off', async () => {
  const server = await serverThat({ host: ANYWHERE })
  expect(await sendTo(`${server.url}?requireTLS=false&ignoreTLS=true`)).toBe(NO_TLS)
})

test('smtps: is encrypted from the first byte on', async () => {
  const server = await serverThat({ host: ANYWHERE })
  expect(await sendTo(server.url.replace('smtp:', 'smtps:'))).not.toBeNull()
  expect(server.letters).toEqual([])
})
