import { bed, type Story } from './stories.ts'

/** Households that asked before: joined, kept apart, and one that still has to be looked at. */
export const storiesAgain: Story[] = [
  {
    sent: '-55 10:12',
    name: 'Rosemary Finch',
    phone: '(555) 555-0131',
    email: 'rosemary@example.com',
    street: '30 Mallow Street',
    postcode: '69401',
    gate: 'Side gate, code 30',
    note: 'The roses by the porch need room.',
    beds: [
      bed('rectangle', { length: '26 ft', width: '5 ft' }, { measuredBy: 'eye', lying: 'thin' }),
      bed('circle', { diameter: '8 ft' }, { measuredBy: 'eye' }),
    ],
    after: [
      { at: '-54 09:05', verb: 'set a visit', for: '-52 10:00' },
      {
        at: '-52 10:20',
        verb: 'measure',
        sizes: [{ length: `27' 3"`, width: `5' 6"` }, { diameter: '8 ft' }],
      },
      { at: '-52 16:30', verb: 'quote' },
      { at: '-50 18:00', verb: 'decline', reason: 'later', words: 'After the porch is painted.' },
    ],
  },
  {
    sent: '-4 11:26',
    name: 'Rosemary and Jay Finch',
    phone: '+1 555 555 0131',
    street: '30 Mallow St.',
    postcode: '69401-2210',
    note: 'The porch is done.',
    beds: [bed('volume', { volume: '2 cu yd' }, { lying: 'thin' })],
    after: [
      { at: '-4 13:00', verb: 'same as', before: 'Rosemary Finch', decision: 'same' },
      { at: '-3 08:40', verb: 'leave the visit out' },
    ],
  },
  {
    sent: '-6 09:18',
    name: 'Sorrel Pike',
    phone: '(555) 555-0132',
    street: '88 Cowslip Ter',
    postcode: '69401',
    beds: [bed('strip', { length: '40 ft', width: '3 ft' }, { measuredBy: 'paces', finish: 'compost' })],
    after: [
      { at: '-6 10:00', verb: 'same as', before: 'Laurel Finchley', decision: 'place' },
      { at: '-5 08:30', verb: 'set a visit', for: '+2 11:00' },
    ],
  },
  {
    sent: '-5h',
    name: 'Bri Nettleship',
    email: 'Briar@example.com',
    street: '27 Campion Mews',
    postcode: '69402',
    note: 'We’d like the same as you quoted us before.',
    beds: [bed('rectangle', { length: '16 ft', width: '5 ft' }, { count: '2' })],
    after: [],
  },
]
