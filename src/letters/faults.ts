import {
  BY_OWNER,
  isStopped,
  OUT_OF_DATE,
  overtakenInWords,
  QUIET,
  stopped,
  TOO_LATE,
  TOO_MANY,
  TOO_MANY_TEXTS,
} from '../outbox/given-up.ts'
import { refusalInWords } from '../outbox/refusal-words.ts'
import { MAILS_AN_HOUR } from './mail-limits.ts'

/** What `last_fault` says of one that waits because enough went out in this hour. */
export const HOUR_FULL = 'hour full'

/** What it says of one that waits for a decent hour. */
export const QUIET_HOURS = 'quiet hours'

/** What it says where the mail server can't be spoken to safely. */
export const NO_TLS = 'no TLS'
export const NOT_TRUSTED = 'certificate not trusted'

/** What stands before the status that a gateway for texts answered with. */
export const GATEWAY = 'gateway'
/** The gateway didn't answer in time, or could not be reached. */
export const GATEWAY_AWAY = `${GATEWAY} away`

/**
 * A failed sending in a word without personal data, as 'ECONNECTION' or 'stopped: EENVELOPE 550'. Only a
 * refusal of this very message stops it: a wrong password or a server that is not ready can be mended.
 */
export function faultOf(error: unknown): string {
  const { code, responseCode, originalCode } = error as Record<
    'code' | 'responseCode' | 'originalCode',
    unknown
  >
  // The server's own answer to being asked for TLS; a handshake that fails has none.
  if (code === 'ETLS' && responseCode) return NO_TLS
  if (/CERT|VERIFY/.test(String(originalCode))) return NOT_TRUSTED
  const word = [code, responseCode].filter(part => /^[A-Z0-9_]{2,40}$/.test(String(part))).join(' ')
  const fault = word || 'unknown'
  return refusesForGood(code, responseCode) ? stopped(fault) : fault
}

function refusesForGood(code: unknown, responseCode: unknown): boolean {
  if (code !== 'EENVELOPE' && code !== 'EMESSAGE') return false
  // 530: the server wants a sign-in first (RFC 4954, section 6).
  return typeof responseCode === 'number' && responseCode >= 500 && responseCode !== 530
}

const WORDS: Record<string, string> = {
  [OUT_OF_DATE]: 'Not sent, because things changed first.',
  [BY_OWNER]: 'You stopped it.',
  [TOO_MANY]: `Not sent: ${MAILS_AN_HOUR.unconfirmedAddress} emails went to this address within the hour, and nobody has confirmed it.`,
  [TOO_MANY_TEXTS]: `Not sent: ${MAILS_AN_HOUR.phone} texts went to this number within the hour.`,
  [HOUR_FULL]: 'Waiting, because many messages went out this hour. It will go out later.',
  [QUIET_HOURS]: 'Waiting for the daytime. It will go out between 8 AM and 9 PM.',
  [QUIET]:
    'Not sent, because the homeowner wants messages about booked work only. Call, or send it yourself.',
  [TOO_LATE]: 'Not sent, because it would have come too late.',
  [NO_TLS]:
    'Not sent yet: the mail server doesn’t use encryption. We keep trying. See SMTP_URL in the README.',
  [NOT_TRUSTED]:
    'Not sent yet: the mail server’s certificate can’t be trusted. We keep trying. See SMTP_URL in the README.',
  [GATEWAY_AWAY]: 'Not sent yet: your text gateway doesn’t answer. We keep trying.',
}

/** The state of a message that was not sent, in plain words for the owner. */
export function faultInWords(fault: string | null, attempts: number): string {
  const words = fault && WORDS[fault]
  if (words) return words
  const overtaken = fault && overtakenInWords(fault)
  if (overtaken) return `Not sent, because ${overtaken}.`
  if (fault && isStopped(fault)) return refusalInWords(fault)
  if (fault)
    return `Not sent yet, after ${attempts} ${attempts === 1 ? 'try' : 'tries'} (${fault}). We keep trying.`
  return 'Waiting to be sent.'
}
