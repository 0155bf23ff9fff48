const STOPPED = 'stopped: '
const DROPPED = 'dropped: '

/** What `last_fault` says of a message that couldn't get there and will not be tried again. */
export const NO_ADDRESS = `${STOPPED}no address`

/** What it says of one that nobody needs any more. */
export const OUT_OF_DATE = `${DROPPED}out of date`
export const TOO_MANY = `${DROPPED}too many`
export const TOO_MANY_TEXTS = `${DROPPED}too many texts`
export const BY_OWNER = `${DROPPED}by the owner`

/** A fault after which a message is not tried again. */
export function stopped(fault: string): string {
  return STOPPED + fault
}

/** Whether a message with this fault failed for good. */
export function isStopped(fault: string | null): boolean {
  return fault?.startsWith(STOPPED) ?? false
}

/** Whether it was dropped: overtaken, held back, or stopped by the owner. */
export function isDropped(fault: string | null): boolean {
  return fault?.startsWith(DROPPED) ?? false
}

export function isGivenUp(fault: string | null): boolean {
  return isStopped(fault) || isDropped(fault)
}

/** What came after the word that says how it ended. */
export function whatStopped(fault: string): string {
  return fault.replace(STOPPED, '')
}
