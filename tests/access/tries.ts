import type { RouteRow } from '../../src/http/route-table.ts'
import { bodyOf } from './filling.ts'
import type { Form } from './forms.ts'
import { changedAtRandom, NASTY, oneOf, type Random } from './typed-at-random.ts'
import { fileAtRandom, hurtAtRandom } from './uploads-at-random.ts'

/** One request, as it is to be sent. */
export interface Try {
  method: string
  address: string
  headers: Record<string, string>
  body?: string | Buffer
}

/** What may be tried: the forms of a page, addresses that were found on pages, and all routes there are. */
export interface Known {
  forms: Form[]
  addresses: string[]
  routes: RouteRow[]
}

const FORM = 'application/x-www-form-urlencoded'
const JSON_TYPE = 'application/json'
const TYPES = [FORM, JSON_TYPE, 'text/plain', 'multipart/form-data', 'application/octet-stream', '*/*', '']

// In a path, some of them where a number, a day, a slug or a token is to be.
const PARTS = [
  ...['0', '-1', '1', '1e9', '1.5', '9'.repeat(30), '9007199254740993', '26-0001', '26-99999999', 'B26-0001'],
  ...[
    '2026-02-30',
    '2026-03-02',
    '0000-01-01',
    '9999-12-31',
    '+012026-03-02',
    'compost',
    'stone',
    'finish.compost',
  ],
  ...[
    'A'.repeat(43),
    'A'.repeat(44),
    '%00',
    '%',
    '%zz',
    '%ED%A0%80',
    '%FF',
    '..',
    '%2e%2e%2fetc',
    '%2F',
    '%5C',
  ],
  ...[
    '__proto__',
    'constructor',
    '%F0%9F%8C%BF',
    'x'.repeat(3000),
    '%0D%0Aa:b',
    "'--",
    ';',
    'new',
    'null',
    '*',
  ],
]
const NAMES = [
  ...[
    'language',
    'q',
    'show',
    'from',
    'to',
    'as',
    'back',
    'in',
    'before',
    'now',
    'version',
    'revision',
    'add',
  ],
  ...['day', 'week', 'picks', 'beds', 'beds.0.shape', 'year', 'page', 'number', '__proto__', 'a[b]', 'units'],
]
const HEADERS: [name: string, values: string[]][] = [
  ['accept-language', ['es', 'xx-YY;q=9', '*'.repeat(500), ';;;,,,', 'en;q=NaN']],
  ['accept', ['application/json', 'text/html', 'image/*', '*', 'x'.repeat(900), '']],
  ['accept-encoding', ['gzip;q=0', 'br', 'identity;q=0, *;q=0', 'zstd, gzip', 'x'.repeat(900)]],
  [
    'cookie',
    ['session=', 'session=%00', 'sent=26-0001.x', '=', ';;', `session=${'A'.repeat(43)}`, 'flash=%zz'],
  ],
  ['content-type', TYPES],
  ['origin', ['null', 'http://localhost:8080.evil.example', 'http://', '%', '']],
  ['if-none-match', ['*', 'W/"x"', '"']],
  ['if-modified-since', ['never', 'Thu, 01 Jan 1970 00:00:00 GMT']],
  ['range', ['bytes=0-', 'bytes=9-1', 'x']],
  ['user-agent', ['', '\u00e9\u00ff', 'x'.repeat(5000)]],
  ['x-forwarded-for', ['::', '1.2.3.4, 999.1.1.1', 'unknown']],
  ['sec-fetch-site', ['cross-site', 'none', 'x']],
  ['content-length', ['0', '5']],
]

/** One request at random: mostly a form of the page as a browser sends it, with some of it changed; and whatever else a program may send. */
export async function tryAtRandom(known: Known, random: Random): Promise<Try> {
  const made = await madeAtRandom(known, random)
  for (let more = random() < 0.2 ? 1 + Math.floor(random() * 3) : 0; more > 0; more--) {
    const [name, values] = oneOf(random, HEADERS)
    made.headers[name] = oneOf(random, values)
  }
  return made
}

async function madeAtRandom({ forms, addresses, routes }: Known, random: Random): Promise<Try> {
  const kind = random()
  const form = forms.length > 0 ? oneOf(random, forms) : undefined
  if (form && kind < 0.55) return ofForm(form, random)
  if (form && kind < 0.65) return otherwiseSent(form, random)
  if (kind < 0.8 && addresses.length > 0) {
    const address = changedAddress(oneOf(random, addresses), random)
    return { method: random() < 0.95 ? 'GET' : 'HEAD', address, headers: {} }
  }
  return ofRoute(oneOf(random, routes), random)
}

/** As its page has it sent. */
async function ofForm(form: Form, random: Random): Promise<Try> {
  const { method, address, isMultipart } = form
  if (isMultipart) return upload(form, random)
  const body = changedAtRandom(form, random)
  if (method === 'GET') return { method, address: `${address.split('?')[0]}?${body}`, headers: {} }
  return { method, address, headers: { 'content-type': FORM }, body }
}

async function upload({ address, controls }: Form, random: Random): Promise<Try> {
  const sent = controls
    .filter(({ isSent, kind }) => isSent || kind === 'file')
    .map(({ name, kind, value }): [string, string | File] => {
      if (kind === 'file') return [name, fileAtRandom(random)]
      return [name, random() < 0.2 ? decoded(oneOf(random, NASTY)) : value]
    })
  if (random() < 0.1) sent.push(...sent)
  const { payload, type } = await bodyOf(true, sent)
  const bytes = Buffer.from(payload)
  return {
    method: 'POST',
    address,
    headers: { 'content-type': type },
    body: random() < 0.3 ? hurtAtRandom(bytes, random) : bytes,
  }
}

/** What a form says, under another type or as JSON. */
function otherwiseSent(form: Form, random: Random): Try {
  const body = changedAtRandom(form, random)
  const isJson = random() < 0.5
  const entries = [...new URLSearchParams(body)].slice(0, 50)
  return {
    method: 'POST',
    address: form.address,
    headers: { 'content-type': isJson ? JSON_TYPE : oneOf(random, TYPES) },
    body: isJson ? JSON.stringify(Object.fromEntries(entries)) : body,
  }
}

/** A route by what stands in its path, or doesn't, with any body. */
function ofRoute({ method, path }: RouteRow, random: Random): Try {
  const filled = path.replace(/:\w+/g, () => oneOf(random, PARTS))
  const address = random() < 0.4 ? `${filled}?${queryAtRandom(random)}` : filled
  if (method === 'GET') return { method, address, headers: {} }
  const isJson = random() < 0.5
  const type = random() < 0.3 ? oneOf(random, TYPES) : isJson ? JSON_TYPE : FORM
  return {
    method,
    address,
    headers: { 'content-type': type },
    body: isJson ? jsonAtRandom(random) : queryAtRandom(random),
  }
}

function changedAddress(address: string, random: Random): string {
  const [path, query] = address.split('?') as [string, string?]
  const parts = path.split('/')
  const places = parts.flatMap((part, at) => (/\d|[\w-]{12}|\./.test(part) ? [at] : []))
  if (places.length > 0 && random() < 0.6) parts[oneOf(random, places)] = oneOf(random, PARTS)
  const more = random() < 0.6 ? queryAtRandom(random) : ''
  const all = [query, more].filter(Boolean).join('&')
  return parts.join('/') + (all ? `?${all}` : '')
}

function queryAtRandom(random: Random): string {
  const pair = () => `${oneOf(random, NAMES)}=${oneOf(random, random() < 0.5 ? NASTY : PARTS)}`
  return Array.from({ length: 1 + Math.floor(random() * 3) }, pair).join('&')
}

/** JSON as programs send it of a job or an answer of a device, with anything in any place; or broken off. */
function jsonAtRandom(random: Random): string {
  const value = (depth: number): unknown => {
    const kind = random()
    if (depth > 3 || kind < 0.3) return decoded(oneOf(random, NASTY))
    if (kind < 0.5) return oneOf(random, [0, -1, 1e308, 0.1, null, true, false, [], {}, '', 2 ** 53])
    if (kind < 0.65) return Array.from({ length: Math.floor(random() * 4) }, () => value(depth + 1))
    const keys = Array.from({ length: 1 + Math.floor(random() * 4) }, () => oneOf(random, KEYS))
    return Object.fromEntries(keys.map(key => [key, value(depth + 1)]))
  }
  const text = JSON.stringify(
    random() < 0.7 ? { beds: [value(1)], extras: value(2), postcode: value(3) } : value(0),
  )
  return random() < 0.1 ? text.slice(0, Math.floor(random() * text.length)) : text
}

const KEYS = [
  ...[
    'beds',
    'extras',
    'postcode',
    'shape',
    'sizes',
    'length',
    'width',
    'count',
    'measuredBy',
    'planted',
    'lying',
  ],
  ...['finish', 'depth', 'stops', 'id', 'rawId', 'type', 'response', 'clientDataJSON', 'attestationObject'],
  ...['__proto__', 'constructor', 'toString', '0', 'from', 'body', 'to', 'units', 'language'],
]

function decoded(text: string): string {
  try {
    return decodeURIComponent(text.replaceAll('+', ' '))
  } catch {
    return text
  }
}
