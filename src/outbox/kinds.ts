/** The messages to homeowners. */
export type HomeownerMessage =
  | 'request-received'
  | 'receipt'
  | 'own-link'
  | 'visit-set'
  | 'visit-off'
  | 'visit-times'
  | 'visit-tomorrow'
  | 'quote-ready'
  | 'change-withdrawn'
  | 'follow-up'
  | 'expiring'
  | 'accepted'
  | 'day-asked'
  | 'week-chosen'
  | 'day-declined'
  | 'day-hold-ended'
  | 'day-booked'
  | 'day-moved'
  | 'rain-moved'
  | 'work-tomorrow'
  | 'deposit-received'
  | 'bill'
  | 'bill-credited'
  | 'bill-reminder'
  | 'payment-received'
  | 'check-returned'
  | 'given-back'
  | 'canceled'
  | 'turned-down'
  | 'taken-back'
  | 'offer'

/** Those about what is held as maybe junk, which is no request: whether it was them, and that something is held. */
export type HeldMessage = 'was-it-you' | 'held-staff'

/** The messages that there are; each has a function of its own in messages.ts. */
export type MessageKind =
  | HomeownerMessage
  | 'request-arrived'
  | 'accepted-staff'
  | 'day-asked-staff'
  | 'week-chosen-staff'
  | 'day-booked-staff'
  | 'day-moved-staff'
  | 'unsuited-staff'
  | 'visit-staff'
  | 'not-taken-staff'
  | 'called-off-staff'
  | 'note-staff'
  | 'question-staff'
  | 'change-asked-staff'
  | 'digest-staff'

/** What is said of a visit, and of a price as long as nobody has answered it. */
export const OF_VISIT: MessageKind[] = ['visit-set', 'visit-off', 'visit-times', 'visit-tomorrow']
export const OF_PRICE: MessageKind[] = ['quote-ready', 'follow-up', 'expiring']

/** What is said of the day or the week that is booked, or asked for. */
export const OF_WORK: MessageKind[] = [
  'day-asked',
  'week-chosen',
  'day-declined',
  'day-hold-ended',
  'day-booked',
  'day-moved',
  'rain-moved',
  'work-tomorrow',
]

/** What is said of a bill, and of money for it. */
export const OF_BILL: MessageKind[] = [
  'bill',
  'bill-credited',
  'bill-reminder',
  'payment-received',
  'check-returned',
  'given-back',
]

/** What whoever wants to be left in peace gets still: what concerns the booked job, and what they have just asked for. */
export const WHEN_QUIET: MessageKind[] = [
  ...OF_VISIT,
  ...OF_WORK,
  ...OF_BILL,
  'deposit-received',
  'change-withdrawn',
  'canceled',
  'own-link',
  'receipt',
]
