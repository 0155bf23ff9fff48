/** The messages to homeowners. */
export type HomeownerMessage =
  | 'request-received'
  | 'receipt'
  | 'own-link'
  | 'visit-set'
  | 'visit-off'
  | 'visit-tomorrow'
  | 'quote-ready'
  | 'follow-up'
  | 'expiring'
  | 'accepted'
  | 'day-booked'
  | 'work-tomorrow'
  | 'canceled'
  | 'turned-down'
  | 'taken-back'

/** The messages that there are; each has a function of its own in messages.ts. */
export type MessageKind =
  | HomeownerMessage
  | 'request-arrived'
  | 'accepted-staff'
  | 'day-booked-staff'
  | 'not-taken-staff'
  | 'called-off-staff'
  | 'note-staff'
  | 'question-staff'
  | 'digest-staff'

/** What is said of a visit, and of a price as long as nobody has answered it. */
export const OF_VISIT: MessageKind[] = ['visit-set', 'visit-off', 'visit-tomorrow']
export const OF_PRICE: MessageKind[] = ['quote-ready', 'follow-up', 'expiring']
