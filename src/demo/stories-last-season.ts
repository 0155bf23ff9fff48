import { bed, type Story } from './stories.ts'

/** Requests of a year ago, of which two are taken up again this season with the beds that were described then. */
export const lastSeasonStories: Story[] = [
  {
    sent: '-372 18:20',
    name: 'Hawthorn Reed',
    phone: '(555) 555-0141',
    email: 'hawthorn@example.com',
    street: '19 Tansy Lane',
    postcode: '69401',
    gate: 'Code 1940',
    beds: [
      bed('rectangle', { length: '34 ft', width: '6 ft' }, { lying: 'thin', planted: 'half' }),
      bed('circle', { diameter: '10 ft' }, { lying: 'thin' }),
    ],
    after: [
      { at: '-371 09:00', verb: 'set a visit', for: '-369 13:00' },
      {
        at: '-369 13:20',
        verb: 'measure',
        sizes: [{ length: `35' 6"`, width: '6 ft' }, { diameter: `10' 3"` }],
      },
      { at: '-369 19:00', verb: 'quote' },
      { at: '-366 20:15', verb: 'decline', reason: 'later', words: 'Next spring, please ask again.' },
      { at: '-2 09:15', verb: 'take up again' },
    ],
  },
  {
    sent: '-364 12:02',
    name: 'Bryony Lark',
    phone: '(555) 555-0142',
    street: '5 Sedge Avenue',
    postcode: '69403',
    beds: [bed('strip', { length: '70 ft', width: '3 ft' }, { measuredBy: 'paces' })],
    after: [
      { at: '-363 08:30', verb: "can't do", reason: 'full', words: 'We’d be glad to come next spring.' },
      { at: '-1 10:40', verb: 'take up again' },
    ],
  },
  {
    sent: '-358 07:48',
    name: 'Teal Marsh',
    email: 'teal@example.com',
    street: '61 Quince Court',
    postcode: '69402',
    beds: [bed('rectangle', { length: '14 ft', width: '8 ft' }, { finish: 'bark-nuggets' })],
    after: [{ at: '-356 17:30', verb: 'call off', reason: 'My brother will do it.' }],
  },
  {
    sent: '-351 16:09',
    name: 'Fennel Croft',
    phone: '(555) 555-0143',
    email: 'fennel@example.com',
    street: '240 Yarrow Street',
    postcode: '69401',
    beds: [bed('area', { area: '420 sq ft' }, { finish: 'compost' })],
    after: [
      { at: '-350 09:10', verb: 'leave the visit out' },
      { at: '-350 11:00', verb: 'quote' },
      { at: '-310 03:30', verb: 'lapse' },
    ],
  },
]
