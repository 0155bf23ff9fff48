import { createHash, generateKeyPairSync, randomBytes, sign } from 'node:crypto'

import { ALICE, type Browser } from './people.ts'

const PAGE = '/password/passkeys'
const CHALLENGE = /data-options="([^"]*)"/
const PRESENT_AND_VERIFIED = 0x05
const HOLDS_A_KEY = 0x40

/** What may be otherwise than a browser at the service's own address would say. */
export interface Otherwise {
  origin?: string
  site?: string
  counter?: number
}

/** The options that a page gives to the device, as sent. */
export function optionsIn(page: string): Record<string, unknown> & { challenge: string } {
  const [, options] = CHALLENGE.exec(page) ?? []
  if (!options) throw new Error('The page asks for no passkey.')
  return JSON.parse(options.replaceAll('&quot;', '"').replaceAll('&#34;', '"').replaceAll('&amp;', '&'))
}

/** A device that keeps one passkey (ES256), as Web Authentication Level 3 says in 6.1, 6.5 and 8.7; its counter goes up by one each time. */
export function device() {
  const { privateKey, publicKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const id = randomBytes(32)
  const { x, y } = publicKey.export({ format: 'jwk' })
  let counter = 0
  const answer = (response: object) =>
    JSON.stringify({
      id: text(id),
      rawId: text(id),
      type: 'public-key',
      clientExtensionResults: {},
      response,
    })
  const said = (type: string, challenge: string, { origin = 'http://localhost:8080' }: Otherwise) =>
    Buffer.from(JSON.stringify({ type, challenge, origin, crossOrigin: false }))
  const data = (flags: number, { site = 'localhost', counter: told = counter }: Otherwise) => {
    const count = Buffer.alloc(4)
    count.writeUInt32BE(told)
    return Buffer.concat([sha256(site), Buffer.from([flags]), count])
  }
  return {
    id: text(id),
    /** Makes the passkey, by the options of a page. */
    make: (page: string, otherwise: Otherwise = {}) => {
      const key = coseKey(x!, y!)
      const length = Buffer.from([0, id.length])
      const authData = Buffer.concat([
        ...[data(PRESENT_AND_VERIFIED | HOLDS_A_KEY, otherwise), Buffer.alloc(16), length, id, key],
      ])
      const attested = new Map<unknown, unknown>([
        ['fmt', 'none'],
        ['attStmt', new Map()],
        ['authData', authData],
      ])
      return answer({
        clientDataJSON: text(said('webauthn.create', optionsIn(page).challenge, otherwise)),
        attestationObject: text(cbor(attested)),
        transports: ['internal'],
      })
    },
    /** Answers by the passkey, to the options of a page. */
    prove: (page: string, otherwise: Otherwise = {}) => {
      counter += 1
      const clientData = said('webauthn.get', optionsIn(page).challenge, otherwise)
      const authData = data(PRESENT_AND_VERIFIED, otherwise)
      const signature = sign('sha256', Buffer.concat([authData, sha256(clientData)]), privateKey)
      return answer({
        clientDataJSON: text(clientData),
        authenticatorData: text(authData),
        signature: text(signature),
      })
    },
  }
}

/** A public key on P-256, as RFC 9053 says in 7.1. */
function coseKey(x: string, y: string): Buffer {
  return cbor(
    new Map<unknown, unknown>([
      [1, 2],
      [3, -7],
      [-1, 1],
      [-2, bytes(x)],
      [-3, bytes(y)],
    ]),
  )
}

const text = (raw: Buffer) => raw.toString('base64url')
const bytes = (told: string) => Buffer.from(told, 'base64url')
const sha256 = (of: string | Buffer) => createHash('sha256').update(of).digest()

/** The little of CBOR (RFC 8949) that is needed: small integers, texts, bytes and maps. */
function cbor(value: unknown): Buffer {
  if (typeof value === 'number') return value < 0 ? head(1, -1 - value) : head(0, value)
  if (typeof value === 'string') return Buffer.concat([head(3, Buffer.byteLength(value)), Buffer.from(value)])
  if (Buffer.isBuffer(value)) return Buffer.concat([head(2, value.length), value])
  if (!(value instanceof Map)) throw new Error('Not needed so far')
  return Buffer.concat([head(5, value.size), ...[...value].flat().map(cbor)])
}

function head(kind: number, size: number): Buffer {
  return size < 24 ? Buffer.from([(kind << 5) | size]) : Buffer.from([(kind << 5) | 24, size])
}

/** The recovery codes that a page shows. */
export function recoveryIn(page: string): string[] {
  return [...page.matchAll(/<li class="number">([^<]*)<\/li>/g)].map(([, code]) => code!)
}

/** Adds a passkey on the page; gives the device that keeps it and what was answered. */
export async function added(browser: Browser, name = 'My phone') {
  const phone = device()
  const passkey = phone.make((await browser.get(PAGE)).text)
  return { phone, passkey, answer: await browser.post(PAGE).type('form').send({ name, passkey }) }
}

/** The page that asks for a code or a passkey, after the right password, and what is answered there. */
export async function asked(
  browser: Browser,
  { email, password }: { email: string; password: string } = ALICE,
) {
  const sent = await browser.post('/sign-in').type('form').send({ email, password, back: '/days' })
  const [, half] = /name="half" value="([^"]*)"/.exec(sent.text) ?? []
  if (!half) throw new Error(`Nothing is asked for: ${sent.status}`)
  const answered = (passkey: string, code = '') =>
    browser.post('/sign-in/code').type('form').send({ half, back: '/days', passkey, code })
  return { text: sent.text, answered }
}

/** A passkey of an account, as it is stored; no device has its key. */
export function passkeyOf(accountId: number, now: Temporal.Instant) {
  const { x, y } = generateKeyPairSync('ec', { namedCurve: 'P-256' }).publicKey.export({ format: 'jwk' })
  return {
    ...{ account_id: accountId, credential_id: text(randomBytes(32)), public_key: text(coseKey(x!, y!)) },
    ...{ counter: 0, transports: 'internal', name: 'My phone', made_at: now.toString() },
  }
}
