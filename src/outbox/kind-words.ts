import type { MessageKind } from './kinds.ts'

const WORDS: Record<MessageKind, string> = {
  'request-received': 'We have your request',
  receipt: 'What you sent',
  'own-link': 'Link to the request',
  'visit-set': 'We’re coming to measure',
  'visit-off': 'The visit is canceled',
  'visit-times': 'Times to pick from',
  'visit-tomorrow': 'The day before the visit',
  'follow-up': 'Asking about the price',
  expiring: 'The price expires soon',
  accepted: 'You accepted',
  'work-tomorrow': 'The day before the work',
  'change-withdrawn': 'We took a change back',
  'deposit-received': 'We received your deposit',
  bill: 'The bill',
  'bill-credited': 'A credit memo',
  'bill-reminder': 'A reminder of the bill',
  'payment-received': 'We received your payment',
  'check-returned': 'Your check came back',
  canceled: 'Your request is canceled',
  'turned-down': 'We can’t do this work',
  'taken-back': 'We can do this work after all',
  'quote-ready': 'Your firm price',
  'day-booked': 'You’re booked',
  'day-moved': 'Your day is moved',
  'rain-moved': 'Moved because of rain',
  offer: 'An offer',
  'request-arrived': 'New request',
  'accepted-staff': 'Accepted',
  'day-booked-staff': 'Booked',
  'day-moved-staff': 'Moved by the homeowner',
  'unsuited-staff': 'A day doesn’t suit',
  'visit-staff': 'A visit, by the homeowner',
  'not-taken-staff': 'Declined',
  'called-off-staff': 'Canceled',
  'note-staff': 'A note',
  'question-staff': 'A question',
  'change-asked-staff': 'A change asked for',
  'digest-staff': 'The day’s summary',
}

/** What a message is about, in a few words for the staff. */
export function kindInWords(kind: MessageKind): string {
  return WORDS[kind]
}
