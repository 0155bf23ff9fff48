import { readFileSync } from 'node:fs'
import { sealOf } from '../backup/folder.ts'
import { isIdentity, isRecipient, type Opener, type Seal } from '../lib/age.ts'
import { type Asked, type Command, CommandFault, type Here, Misused } from './command.ts'
import { seeHelp } from './help.ts'

/** As short as a password may be. */
const SHORTEST = 15

/** The options of a command that encrypts. */
export const SEALING = {
  recipient: { type: 'string', multiple: true },
  'passphrase-file': { type: 'string' },
} as const

/** The options of a command that decrypts. */
export const OPENING = {
  identity: { type: 'string' },
  'passphrase-file': { type: 'string' },
} as const

/**
 * For whom a backup is to be encrypted: as the options say, or else as the settings do; null where neither asks for it.
 * @throws {CommandFault | Misused}
 */
export function askedSeal({ config }: Here, command: Command, { options }: Asked): Seal | null {
  const recipients = options.recipient as string[] | undefined
  const file = options['passphrase-file'] as string | undefined
  if (recipients && file) throw eitherOr('--recipient', command)
  if (file) return { passphrase: readPassphrase(file) }
  const other = recipients?.find(one => !isRecipient(one))
  if (other !== undefined)
    throw new CommandFault(`"${other}" isn’t a public key of age, which begins with age1.`)
  return recipients ? { recipients } : sealOf(config)
}

/**
 * What is to open an encrypted backup; null where nothing was named.
 * @throws {CommandFault | Misused}
 */
export function askedOpener(command: Command, { options }: Asked): Opener | null {
  const { identity, 'passphrase-file': file } = options as Record<string, string | undefined>
  if (identity && file) throw eitherOr('--identity', command)
  if (file) return { passphrase: readPassphrase(file) }
  return identity ? { identities: readIdentities(identity) } : null
}

function eitherOr(option: string, command: Command): Misused {
  return new Misused(`Name ${option} or --passphrase-file, not both. ${seeHelp(command)}`)
}

function readPassphrase(file: string): string {
  const passphrase = read(file).trim()
  if (passphrase.length < SHORTEST)
    throw new CommandFault(`The passphrase in ${file} must be at least ${SHORTEST} characters long.`)
  return passphrase
}

/** As age-keygen writes them: a key a line, and remarks that begin with #. */
function readIdentities(file: string): string[] {
  const lines = read(file)
    .split('\n')
    .map(line => line.trim())
  const identities = lines.filter(line => line !== '' && !line.startsWith('#'))
  if (identities.length === 0 || !identities.every(isIdentity))
    throw new CommandFault(
      `${file} isn’t a file with a private key, as age-keygen writes it. If it’s encrypted itself, decrypt it first.`,
    )
  return identities
}

function read(file: string): string {
  try {
    return readFileSync(file, 'utf8')
  } catch {
    throw new CommandFault(`The file ${file} can’t be read.`)
  }
}
