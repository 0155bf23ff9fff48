import { BILL_SENTENCES, type MessageSentences } from './bill-sentences.ts'

const UNCONFIRMED = 'Email, before the address is confirmed'

/** By message, each sentence with its label. */
export const SENTENCES: MessageSentences[] = [
  [
    'greeting',
    'Greeting',
    [
      ['mail.hello', 'With the name'],
      ['mail.hello-nobody', 'Before the address is confirmed'],
    ],
  ],
  [
    'received',
    'We have your request',
    [
      ['mail.received-subject', 'Subject'],
      ['mail.received', 'Email'],
      ['mail.received-one', 'Email, if you answer by the next day'],
      ['mail.received-range', 'The price range'],
      ['mail.received-no-range', 'Without a price range'],
      ['text.received', 'Text'],
    ],
  ],
  [
    'receipt',
    'What you sent',
    [
      ['mail.receipt-subject', 'Subject'],
      ['mail.receipt', 'Email'],
    ],
  ],
  [
    'visit',
    'A visit is set or moved',
    [
      ['mail.visit-subject', 'Subject'],
      ['mail.visit-moved-subject', 'Subject, when it’s moved'],
      ['mail.visit', 'Email'],
      ['mail.visit-no-place', UNCONFIRMED],
      ['text.visit', 'Text'],
    ],
  ],
  [
    'visit-times',
    'Times to pick from',
    [
      ['visits.times-subject', 'Subject'],
      ['visits.times', 'Email'],
      ['text.visit-times', 'Text'],
    ],
  ],
  [
    'visit-off',
    'A visit is canceled',
    [
      ['mail.visit-off-subject', 'Subject'],
      ['mail.visit-off', 'Email'],
      ['text.visit-off', 'Text'],
    ],
  ],
  [
    'visit-tomorrow',
    'The day before a visit',
    [
      ['remind.visit-subject', 'Subject'],
      ['remind.visit', 'Email'],
      ['remind.visit-no-place', UNCONFIRMED],
      ['text.visit-tomorrow', 'Text'],
    ],
  ],
  [
    'price',
    'The price is ready',
    [
      ['mail.quote-subject', 'Subject'],
      ['mail.quote', 'Email'],
      ['mail.quote-no-place', UNCONFIRMED],
      ['mail.quote-again', 'Email, a newer price'],
      ['mail.quote-again-no-place', 'A newer price, before the address is confirmed'],
      ['text.quote', 'Text'],
      ['text.quote-again', 'Text, a newer price'],
    ],
  ],
  [
    'follow-up',
    'A price got no answer',
    [
      ['remind.follow-up-subject', 'Subject'],
      ['remind.follow-up', 'Email'],
      ['text.follow-up', 'Text'],
    ],
  ],
  [
    'expiring',
    'A price is about to expire',
    [
      ['remind.expiring-subject', 'Subject'],
      ['remind.expiring', 'Email'],
      ['text.expiring', 'Text'],
    ],
  ],
  [
    'accepted',
    'A price was accepted',
    [
      ['remind.accepted-subject', 'Subject'],
      ['remind.accepted', 'Email'],
      ['text.accepted', 'Text'],
    ],
  ],
  [
    'asked',
    'A day is asked for',
    [
      ['asked.subject', 'Subject'],
      ['asked.mail', 'Email'],
      ['text.day-asked', 'Text'],
    ],
  ],
  [
    'day-declined',
    'You can’t do the day they asked for',
    [
      ['asked.declined-subject', 'Subject'],
      ['asked.declined', 'Email'],
      ['text.day-declined', 'Text'],
    ],
  ],
  [
    'day-hold-ended',
    'A day they asked for wasn’t confirmed in time',
    [
      ['asked.ended-subject', 'Subject'],
      ['asked.ended', 'Email'],
      ['text.day-hold-ended', 'Text'],
    ],
  ],
  [
    'week',
    'A week is booked, its day isn’t picked yet',
    [
      ['week.subject', 'Subject'],
      ['week.mail', 'Email'],
      ['text.week-chosen', 'Text'],
    ],
  ],
  [
    'booked',
    'A work day is booked',
    [
      ['mail.booked-subject', 'Subject'],
      ['mail.booked', 'Email'],
      ['mail.booked-no-place', UNCONFIRMED],
      ['text.booked', 'Text'],
    ],
  ],
  [
    'moved',
    'A work day is moved',
    [
      ['moves.subject', 'Subject'],
      ['moves.mail', 'Email'],
      ['text.day-moved', 'Text'],
    ],
  ],
  [
    'rain',
    'A work day is moved because of rain',
    [
      ['moves.rain-subject', 'Subject'],
      ['moves.rain', 'Email'],
      ['text.rain-moved', 'Text'],
    ],
  ],
  [
    'work-tomorrow',
    'The day before a work day',
    [
      ['remind.work-subject', 'Subject'],
      ['remind.work', 'Email'],
      ['remind.work-no-place', UNCONFIRMED],
      ['text.work-tomorrow', 'Text'],
    ],
  ],
  [
    'deposit',
    'A deposit is received',
    [
      ['deposit.subject', 'Subject'],
      ['deposit.mail', 'Email'],
      ['deposit.brief', 'Text'],
    ],
  ],
  ...BILL_SENTENCES,
  [
    'canceled',
    'A request is canceled',
    [
      ['mail.canceled-subject', 'Subject'],
      ['mail.canceled', 'Email'],
      ['moves.canceled-by-us', 'Email, when you cancel it'],
      ['text.canceled', 'Text'],
    ],
  ],
  [
    'turned-down',
    'You turn a request down',
    [
      ['sorry.subject', 'Subject'],
      ['sorry.mail', 'Email'],
      ['sorry.questions', 'At the end of the email'],
      ['text.turned-down', 'Text'],
    ],
  ],
  [
    'taken-back',
    'You take that back',
    [
      ['sorry.back-subject', 'Subject'],
      ['sorry.back', 'Email'],
      ['text.taken-back', 'Text'],
    ],
  ],
  [
    'offer',
    'An offer',
    [
      ['offers.subject', 'Subject'],
      ['offers.hello-again', 'Email'],
      ['offers.brief', 'Text'],
    ],
  ],
]
