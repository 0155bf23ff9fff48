import { readFileSync } from 'node:fs'
import { isIP } from 'node:net'
import { z } from 'zod'
import { isRecipient } from './lib/age.ts'

const WITHOUT_TLS = '?tls=no'
const SECRETS = ['SECRET_KEY', 'DATABASE_URL', 'SMTP_URL', 'METRICS_TOKEN'] as const

const address = (schemes: string[]) =>
  z.string().refine(text => URL.canParse(text) && schemes.includes(new URL(text).protocol), {
    message: `must be an address that begins with ${schemes.map(scheme => `${scheme}//`).join(' or ')}`,
  })

const PROXIES = 'must be addresses, or ranges such as 10.0.0.0/8, with commas between them'

const HOSTS = 'must be hosts, or hosts with a port such as db2.example.com:5432, with commas between them'

const RECIPIENTS = 'must be public keys of age, each beginning with age1, with commas between them'

const list = (isOne: (text: string) => boolean, message: string) =>
  z
    .string()
    .transform(text => text.split(/[ ,]+/).filter(Boolean))
    .refine(all => all.every(isOne), { message })
    .default([])

const port = z.coerce
  .number({ message: 'must be a port number' })
  .int({ message: 'must be a whole number' })
  .min(0, { message: 'must be 0 to 65535' })
  .max(65535, { message: 'must be 0 to 65535' })

const environment = z.object({
  PORT: port.default(8080),
  HOST: z.string().default('127.0.0.1'),
  DATA_DIR: z.string().default('data'),
  DATABASE_URL: address(['postgres:', 'postgresql:']).optional(),
  DATABASE_HOSTS: list(isHostAndPort, HOSTS),
  PUBLIC_URL: address(['http:', 'https:'])
    .refine(text => !URL.canParse(text) || new URL(text).pathname === '/', { message: 'must have no path' })
    .optional(),
  SECRET_KEY: z.string().min(32, { message: 'must be at least 32 characters long' }).optional(),
  SMTP_URL: address(['smtp:', 'smtps:'])
    .refine(text => !URL.canParse(text) || new URL(text).hostname !== '', { message: 'must name a server' })
    .refine(hasKnownSearch, {
      message: 'can end in ?tls=no if it begins with smtp://, and can’t have any other ? or a #',
    })
    .optional(),
  TRUSTED_PROXY: list(isAddressOrRange, PROXIES),
  LOG_LEVEL: z
    .enum(['fatal', 'error', 'warn', 'info', 'debug', 'silent'], {
      message: 'must be one of fatal, error, warn, info, debug, silent',
    })
    .default('info'),
  BACKUP_RECIPIENTS: list(isRecipient, RECIPIENTS),
  METRICS_PORT: port.optional(),
  METRICS_HOST: z.string().default('127.0.0.1'),
  METRICS_TOKEN: z.string().min(16, { message: 'must be at least 16 characters long' }).optional(),
})

function hasKnownSearch(smtpUrl: string): boolean {
  if (!URL.canParse(smtpUrl)) return true
  const { protocol, search, hash } = new URL(smtpUrl)
  if (hash !== '') return false
  return search === '' || (protocol === 'smtp:' && search === WITHOUT_TLS)
}

type Environment = Record<string, string | undefined>

export interface Config {
  port: number
  host: string
  dataDir: string
  databaseUrl: string | undefined
  /** Other servers that the same database may be on, each a host and maybe a port. */
  databaseHosts: string[]
  /** Scheme, host and port, without a slash at the end. */
  publicUrl: string
  secretKey: string | undefined
  smtpUrl: string | undefined
  trustedProxy: string[]
  logLevel: string
  /** The public keys that backups are encrypted for; none where they aren't. */
  backupRecipients: string[]
  /** Where metrics are answered, and to whom; null where they are not. */
  metrics: { port: number; host: string; token: string | undefined } | null
}

export class ConfigFaults extends Error {
  readonly faults: string[]

  constructor(faults: string[]) {
    super(
      `The settings have ${faults.length === 1 ? 'a problem' : `${faults.length} problems`}:\n  ${faults.join('\n  ')}`,
    )
    this.faults = faults
  }
}

/**
 * Reads the settings from an environment; an empty value counts as absent, and a secret may stand in
 * the file that NAME_FILE names.
 * @throws {ConfigFaults} with every fault at once
 */
export function readConfig(env: Environment = process.env): Config {
  const faults: string[] = []
  const given = withSecretFiles(env, faults)
  const parsed = environment.safeParse(given)
  if (!parsed.success) {
    for (const issue of parsed.error.issues) faults.push(`${issue.path.join('.')} ${issue.message}`)
  } else faults.push(...missingBeside(parsed.data))
  if (faults.length > 0 || !parsed.success) throw new ConfigFaults(faults)
  const { data } = parsed
  return {
    port: data.PORT,
    host: data.HOST,
    dataDir: data.DATA_DIR,
    databaseUrl: data.DATABASE_URL,
    databaseHosts: data.DATABASE_HOSTS,
    publicUrl: new URL(data.PUBLIC_URL ?? `http://localhost:${data.PORT}`).origin,
    secretKey: data.SECRET_KEY,
    smtpUrl: data.SMTP_URL,
    trustedProxy: data.TRUSTED_PROXY,
    logLevel: data.LOG_LEVEL,
    backupRecipients: data.BACKUP_RECIPIENTS,
    metrics:
      data.METRICS_PORT === undefined
        ? null
        : { port: data.METRICS_PORT, host: data.METRICS_HOST, token: data.METRICS_TOKEN },
  }
}

function missingBeside(data: z.infer<typeof environment>): string[] {
  const measured = data.METRICS_PORT !== undefined && !isHere(data.METRICS_HOST)
  return [
    ...(measured && !data.METRICS_TOKEN
      ? ['METRICS_TOKEN must be set if METRICS_HOST isn’t this machine alone']
      : []),
    ...(data.DATABASE_HOSTS.length > 0 && !data.DATABASE_URL
      ? ['DATABASE_URL must be set if DATABASE_HOSTS is: it says the rest of the address']
      : []),
  ]
}

function isHere(host: string): boolean {
  return host === 'localhost' || host === '::1' || (isIP(host) === 4 && host.startsWith('127.'))
}

/**
 * The settings of the demonstration: it listens as the environment says, and shares nothing else with the real
 * thing, so that starting it over can never empty a real store.
 * @throws {ConfigFaults} with every fault at once
 */
export function readDemoConfig(env: Environment = process.env): Config {
  const { PORT, HOST, PUBLIC_URL, LOG_LEVEL = 'warn', DEMO_DIR: DATA_DIR = 'demo-data' } = env
  return readConfig({ PORT, HOST, PUBLIC_URL, LOG_LEVEL, DATA_DIR })
}

/**
 * The settings with another store: the embedded one in `folder`, or without it the database that TO_DATABASE_URL names;
 * null when neither is given.
 * @throws {ConfigFaults} with every fault at once
 */
export function readTargetConfig(folder?: string, env: Environment = process.env): Config | null {
  const { DATABASE_URL: _url, DATABASE_URL_FILE: _file, DATABASE_HOSTS: _hosts, ...others } = env
  if (folder !== undefined) return readConfig({ ...others, DATA_DIR: folder })
  const { TO_DATABASE_URL, TO_DATABASE_URL_FILE } = env
  if (!TO_DATABASE_URL && !TO_DATABASE_URL_FILE) return null
  return readConfig({ ...others, DATABASE_URL: TO_DATABASE_URL, DATABASE_URL_FILE: TO_DATABASE_URL_FILE })
}

/** Whether it is a name or an address of a server, an IPv6 one in brackets, alone or with a port. */
function isHostAndPort(text: string): boolean {
  if (!/^[^/@?#]+$/.test(text) || !URL.canParse(`postgres://${text}/`)) return false
  return new URL(`postgres://${text}/`).hostname !== ''
}

/** Whether it is an IP address, alone or with how many bits of it count; none at all would be everybody's. */
function isAddressOrRange(text: string): boolean {
  const [, address = '', , bits] = /^([^/%]*)(\/(\d{1,3}))?$/.exec(text) ?? []
  const longest = { 0: 0, 4: 32, 6: 128 }[isIP(address)]!
  return bits === undefined ? longest > 0 : Number(bits) >= 1 && Number(bits) <= longest
}

/** One setting as it counts: what is secret in it is left out. */
export interface Setting {
  name: string
  value: string
  /** 'environment', 'default', or the file that it stands in. */
  from: string
}

/**
 * Every setting as it counts in an environment, and where it comes from; of a secret only whether it is set, of an
 * address that holds one what is left without.
 * @throws {ConfigFaults} with every fault at once
 */
export function readSettings(env: Environment = process.env): Setting[] {
  const { dataDir, publicUrl } = readConfig(env)
  const given = withSecretFiles(env, [])
  const absent: Record<string, string> = {
    DATABASE_URL: `not set: the embedded store in ${dataDir}`,
    SECRET_KEY: `not set: the key in ${dataDir}`,
    SMTP_URL: 'not set: no email is sent',
    DATABASE_HOSTS: 'none',
    TRUSTED_PROXY: 'none',
    BACKUP_RECIPIENTS: 'none: backups aren’t encrypted',
    METRICS_PORT: 'not set: nothing is measured',
    METRICS_TOKEN: 'not set',
  }
  const counts: Record<string, unknown> = { ...environment.parse(given), PUBLIC_URL: publicUrl }
  return Object.keys(environment.shape).map(name => {
    const value = [counts[name]].flat().join(', ')
    if (given[name] === undefined) return { name, value: absent[name] ?? value, from: 'default' }
    const file = given[`${name}_FILE`]
    const isSecret = (SECRETS as readonly string[]).includes(name)
    const from = file === undefined ? 'environment' : `file ${file}`
    return { name, value: isSecret ? withoutSecrets(value) : value, from }
  })
}

// A name to sign in with may be a token too, and so may whatever follows a question mark.
function withoutSecrets(text: string): string {
  if (!URL.canParse(text)) return 'set, not shown'
  const { protocol, username, password, host, pathname, search } = new URL(text)
  const signsIn = username !== '' || password !== ''
  // A password with a bare ? or # in it makes an address of another kind, of which any part may belong to it.
  if (host === '' || (text.includes('@') && !signsIn)) return 'set, not shown'
  const shownSearch = search === '' || search === WITHOUT_TLS ? search : '?(hidden)'
  return `${protocol}//${signsIn ? '(hidden)@' : ''}${host}${pathname}${shownSearch}`
}

function withSecretFiles(env: Environment, faults: string[]) {
  const given = Object.fromEntries(Object.entries(env).filter(([, value]) => value !== ''))
  for (const name of SECRETS) {
    const file = given[`${name}_FILE`]
    if (file === undefined) continue
    if (given[name] !== undefined) faults.push(`${name} and ${name}_FILE are both set: keep one`)
    try {
      given[name] = readFileSync(file, 'utf8').trim()
    } catch {
      faults.push(`${name}_FILE names a file that can’t be read`)
    }
  }
  return given
}
