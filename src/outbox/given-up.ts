const STOPPED = 'stopped: '
const DROPPED = 'dropped: '

/** What `last_fault` says of a message that couldn't get there and will not be tried again. */
export const NO_ADDRESS = `${STOPPED}no address`

/** What it says of one that nobody needs any more. */
export const OUT_OF_DATE = `${DROPPED}out of date`
export const TOO_MANY = `${DROPPED}too many`
export const TOO_MANY_TEXTS = `${DROPPED}too many texts`
export const BY_OWNER = `${DROPPED}by the owner`
/** It would have come at an hour, or on a day, at which it makes no sense any more. */
export const TOO_LATE = `${DROPPED}too late`

/** The homeowner wants to be left in peace. */
export const QUIET = `${DROPPED}quiet`

/** By what a message was overtaken, in words for the staff. */
const OVERTAKEN = {
  'visit changed': 'the visit was moved or canceled',
  'price replaced': 'there’s a newer price',
  accepted: 'the price was accepted',
  'day changed': 'the work day was moved or canceled',
  canceled: 'the request was canceled',
  'turned down': 'you turned the request down',
  'taken back': 'you took that back',
  declined: 'the price was declined',
  expired: 'the price expired',
  'offers ended': 'the homeowner doesn’t want offers any more',
  'link ended': 'you turned the booking link off',
  erased: 'the person was erased',
} as const

export type Overtaken = keyof typeof OVERTAKEN

/** What `last_fault` says of a message that this overtook. */
export function overtakenBy(what: Overtaken): string {
  return DROPPED + what
}

/** Why it was dropped, where something overtook it. */
export function overtakenInWords(fault: string): string | undefined {
  return OVERTAKEN[fault.replace(DROPPED, '') as Overtaken]
}

/** A fault after which a message is not tried again. */
export function stopped(fault: string): string {
  return STOPPED + fault
}

/** Whether a message with this fault failed for good. */
export function isStopped(fault: string | null): boolean {
  return fault?.startsWith(STOPPED) ?? false
}

/** Whether it was dropped: overtaken, held back, or stopped by the owner. */
function isDropped(fault: string | null): boolean {
  return fault?.startsWith(DROPPED) ?? false
}

export function isGivenUp(fault: string | null): boolean {
  return isStopped(fault) || isDropped(fault)
}

/** What came after the word that says how it ended. */
export function whatStopped(fault: string): string {
  return fault.replace(STOPPED, '')
}
