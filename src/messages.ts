import { billMessages } from './billing/messages.ts'
import { askedMessages } from './bookings/asked-messages.ts'
import { bookingMessages } from './bookings/messages.ts'
import { movedMessages } from './bookings/moved-messages.ts'
import { turnedDownMessages } from './bookings/turned-down-messages.ts'
import { weekMessages } from './bookings/week-messages.ts'
import { offerMessages } from './offers/messages.ts'
import { digest } from './outbox/digest.ts'
import type { Messages } from './outbox/message.ts'
import { paymentMessages } from './payments/messages.ts'
import { quoteMessages } from './quotes/messages.ts'
import { requestMessages } from './requests/messages.ts'
import { visitMessages } from './visits/messages.ts'

/** The writer of every kind of message, gathered from the rooms; the letters are handed this list. */
export const messages: Messages = {
  ...requestMessages,
  ...visitMessages,
  ...quoteMessages,
  ...bookingMessages,
  ...askedMessages,
  ...weekMessages,
  ...paymentMessages,
  ...billMessages,
  ...movedMessages,
  ...turnedDownMessages,
  ...offerMessages,
  'digest-staff': digest,
}
