import type { Key } from '../language/catalogue.ts'

/** The sentences of one message, each with its label. */
export type MessageSentences = [name: string, heading: string, sentences: [key: Key, label: string][]]

/** Of bills, and of the money for them. */
export const BILL_SENTENCES: MessageSentences[] = [
  [
    'bill',
    'The bill',
    [
      ['bill.subject-bill', 'Subject'],
      ['bill.mail-bill', 'Email'],
      ['bill.brief-bill', 'Text'],
      ['bill.subject-invoice', 'Subject, to a firm'],
      ['bill.mail-invoice', 'Email to a firm'],
      ['bill.brief-invoice', 'Text to a firm'],
    ],
  ],
  [
    'credit-memo',
    'A credit memo cancels a bill',
    [
      ['bill.subject-credit', 'Subject'],
      ['bill.mail-credit', 'Email'],
      ['bill.brief-credit', 'Text'],
    ],
  ],
  [
    'bill-reminder',
    'A reminder of the bill, when you press the button',
    [
      ['bill.subject-reminder', 'Subject'],
      ['bill.mail-reminder', 'Email'],
      ['bill.brief-reminder', 'Text'],
    ],
  ],
  [
    'payment',
    'A payment is received',
    [
      ['bill.subject-payment', 'Subject'],
      ['bill.mail-payment', 'Email'],
      ['bill.brief-payment', 'Text'],
    ],
  ],
  [
    'check-returned',
    'A check came back',
    [
      ['bill.subject-returned', 'Subject'],
      ['bill.mail-returned', 'Email'],
      ['bill.brief-returned', 'Text'],
    ],
  ],
  [
    'given-back',
    'Money is given back, or kept as credit',
    [
      ['deposit.back-subject', 'Subject'],
      ['deposit.back-mail', 'Email'],
      ['deposit.back-brief', 'Text'],
      ['deposit.credit-subject', 'Subject, when it’s kept as credit'],
      ['deposit.credit-mail', 'Email, when it’s kept as credit'],
      ['deposit.credit-brief', 'Text, when it’s kept as credit'],
    ],
  ],
]
