import { bed, type Story } from './stories.ts'

/** Requests with a day booked, and those that came off the list. */
export const settledStories: Story[] = [
  {
    sent: '-12 09:27',
    name: 'Linden Ashgrove',
    email: 'linden@example.com',
    phone: '(555) 555-0119',
    street: '33 Bracken Hill',
    postcode: '69402',
    preferredTimes: 'Any weekday',
    extras: ['edging'],
    beds: [
      bed('strip', { length: '60 ft', width: '4 ft' }, { planted: 'half', lying: 'thin' }),
      bed('rectangle', { length: '18 ft', width: '9 ft' }, { planted: 'half', lying: 'thin' }),
    ],
    after: [
      { at: '-12 09:40', verb: 'confirm the address' },
      { at: '-11 08:45', verb: 'set a visit', for: '-8 10:00' },
      {
        at: '-8 10:25',
        verb: 'measure',
        sizes: [
          { length: '61 ft', width: '4 ft' },
          { length: `18' 6"`, width: `8' 9"` },
        ],
      },
      { at: '-8 17:20', verb: 'quote' },
      { at: '-6 12:09', verb: 'accept' },
      { at: '-6 12:10', verb: 'book', daysAhead: 2 },
    ],
  },
  {
    sent: '-14 20:36',
    name: 'Willow Thornbury',
    email: 'willow@example.com',
    street: '2 Medlar Park',
    postcode: '69401',
    note: 'Eight beds around the community center.',
    beds: [
      bed(
        'rectangle',
        { length: '44 ft', width: '9 ft' },
        { count: '6', finish: 'dyed-wood', lying: 'thin' },
      ),
      bed('circle', { diameter: '12 ft' }, { count: '2', finish: 'dyed-wood' }),
    ],
    after: [
      { at: '-13 09:15', verb: 'leave the visit out' },
      { at: '-13 09:40', verb: 'quote', note: 'Two days in a row.' },
      { at: '-10 16:44', verb: 'accept' },
      { at: '-10 16:45', verb: 'book', daysAhead: 5 },
    ],
  },
  {
    sent: '-18 13:13',
    name: 'Reed Calloway',
    email: 'reed@example.com',
    phone: '(555) 555-0121',
    street: '415 Sedge Avenue',
    postcode: '69403',
    beds: [bed('rectangle', { length: '50 ft', width: '10 ft' }, { finish: 'stone', depth: '3 in' })],
    after: [
      { at: '-18 19:02', verb: 'confirm the address' },
      { at: '-17 10:10', verb: 'leave the visit out' },
      { at: '-17 10:22', verb: 'quote' },
      { at: '-15 21:05', verb: 'decline', reason: 'price', words: 'Stone costs more than we thought.' },
    ],
  },
  {
    sent: '-20 15:48',
    name: 'Laurel Finchley',
    phone: '(555) 555-0122',
    street: '88 Cowslip Terrace',
    postcode: '69401',
    beds: [bed('curvy', { length: '30 ft', width: '4 ft' }, { measuredBy: 'eye', finish: 'compost' })],
    after: [{ at: '-19 08:02', verb: 'call off', reason: 'We’re moving.' }],
  },
  {
    sent: '-22 11:11',
    name: 'Heath Marlowe',
    phone: '(555) 555-0123',
    street: '1 Gorse Road',
    postcode: '69801',
    beds: [bed('rectangle', { length: '12 ft', width: '4 ft' })],
    after: [{ at: '-21 09:00', verb: "can't do", reason: 'far', words: '' }],
  },
  {
    sent: '-48 16:20',
    name: 'Briar Nettleship',
    email: 'briar@example.com',
    street: '27 Campion Mews',
    postcode: '69402',
    beds: [bed('rectangle', { length: '16 ft', width: '5 ft' }, { count: '2' })],
    after: [
      { at: '-47 09:30', verb: 'leave the visit out' },
      { at: '-47 09:41', verb: 'quote' },
    ],
  },
]
