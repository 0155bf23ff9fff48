import { bed, type Happening, type Story } from './stories.ts'

// Booked for last week, whichever day of it has room, and closed as planned.
const DONE: Happening[] = [
  { at: '-18 09:00', verb: 'leave the visit out' },
  { at: '-18 09:20', verb: 'quote' },
  { at: '-16 18:45', verb: 'accept' },
  { at: '-16 18:46', verb: 'book', daysAhead: -9 },
  { at: '-5 17:30', verb: 'close' },
]

/** Small jobs of last week: one half done, one to be billed, one to be paid, one whose check came back, one paid. */
export const doneStories: Story[] = [
  {
    ...{ sent: '-24 15:33', name: 'Basil Thistlewood', street: '7 Tamarack Way', postcode: '69403' },
    ...{ email: 'thistlewood@example.com', phone: '(555) 555-0149' },
    beds: [bed('rectangle', { length: '30 ft', width: '6 ft' }, { lying: 'thin' })],
    after: [
      ...DONE.slice(0, -1),
      {
        ...{ at: '-3 16:40', verb: 'do part of it', restAhead: 6, hours: '2' },
        note: 'The bed along the drive was too wet.',
      },
    ],
  },
  {
    ...{ sent: '-20 10:02', name: 'Yarrow Haskell', street: '8 Sedge Row', postcode: '69401' },
    ...{ email: 'yarrow@example.com', phone: '(555) 555-0151' },
    beds: [bed('rectangle', { length: '20 ft', width: '5 ft' }, { lying: 'thin' })],
    after: DONE,
  },
  {
    ...{ sent: '-21 15:40', name: 'Juno Birchall', street: '51 Alder Walk', postcode: '69402' },
    ...{ email: 'juno@example.com', language: 'es' },
    beds: [bed('circle', { diameter: '14 ft' }, { finish: 'bark-nuggets' })],
    after: [
      ...DONE,
      { at: '-5 18:30', verb: 'bill' },
      { at: '-4 12:10', verb: 'pay', amount: '60.00', way: 'cash' },
    ],
  },
  {
    ...{ sent: '-22 09:15', name: 'Thorne Ockley', street: '3 Hazel Gate', postcode: '69401' },
    ...{ email: 'thorne@example.com', phone: '(555) 555-0153' },
    beds: [bed('strip', { length: '45 ft', width: '3 ft' })],
    after: [
      ...DONE,
      { at: '-5 18:40', verb: 'bill' },
      { at: '-4 16:00', verb: 'pay', amount: 'all', way: 'check' },
      { at: '-3 09:20', verb: 'the check comes back', fee: '25.00' },
    ],
  },
  {
    ...{ sent: '-23 19:05', name: 'Wren Tolliver', street: '17 Linden Rise', postcode: '69402' },
    email: 'wren@example.com',
    beds: [bed('oval', { length: '16 ft', width: '9 ft' }, { finish: 'dyed-wood' })],
    after: [
      ...DONE,
      { at: '-5 18:50', verb: 'bill' },
      { at: '-5 19:10', verb: 'pay', amount: 'all', way: 'card', tip: '10.00' },
    ],
  },
]
