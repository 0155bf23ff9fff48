const STOPPED = 'stopped: '

/** What `last_fault` says of a message that will not be tried again. */
export const NO_ADDRESS = `${STOPPED}no address`
export const OUT_OF_DATE = `${STOPPED}out of date`

/** Whether a message with this fault is given up. */
export function isStopped(fault: string | null): boolean {
  return fault?.startsWith(STOPPED) ?? false
}

/**
 * A failed sending in a word without personal data, as 'ECONNECTION' or 'stopped: EENVELOPE 550'. Only a
 * refusal of this very message stops it: a wrong password or a server that is not ready can be mended.
 */
export function faultOf(error: unknown): string {
  const { code, responseCode } = error as { code?: unknown; responseCode?: unknown }
  const word = [code, responseCode].filter(part => /^[A-Z0-9_]{2,40}$/.test(String(part))).join(' ')
  return `${refusesForGood(code, responseCode) ? STOPPED : ''}${word || 'unknown'}`
}

function refusesForGood(code: unknown, responseCode: unknown): boolean {
  if (code !== 'EENVELOPE' && code !== 'EMESSAGE') return false
  // 530: the server wants a sign-in first (RFC 4954, section 6).
  return typeof responseCode === 'number' && responseCode >= 500 && responseCode !== 530
}

/** The state of a message that was not sent, in plain words for the owner. */
export function faultInWords(fault: string | null, attempts: number): string {
  if (fault === NO_ADDRESS) return 'There is no mail address to send it to.'
  if (fault === OUT_OF_DATE) return 'Things had moved on before it was sent, so it was not.'
  if (fault && isStopped(fault)) return `The mail server refused it (${fault.slice(STOPPED.length)}).`
  if (fault)
    return `Not sent yet, after ${attempts} ${attempts === 1 ? 'try' : 'tries'} (${fault}). It is tried again by itself.`
  return 'Waits to be sent.'
}
