import { NO_ADDRESS, whatStopped } from './given-up.ts'

/** Why a message failed for good, and what to do, in words for the staff. */
export function refusalInWords(fault: string): string {
  if (fault === NO_ADDRESS) return 'There is nowhere to send it: no email address and no phone number.'
  const what = whatStopped(fault)
  const [, status] = /^gateway (\d{3})$/.exec(what) ?? []
  if (status) return `Your text gateway refused it (${status}). Check the phone number, or text it by hand.`
  // RFC 3463 and RFC 5321, section 4.2.3: there is no such mailbox, or it can't be used.
  const likely = / 55[0-4]$/.test(what) ? ' The email address is probably wrong.' : ''
  return `The mail server refused it (${what}).${likely} Call, or send it another way.`
}
