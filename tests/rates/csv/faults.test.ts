import { expect, test } from 'vitest'
import { type Edit, edited, faultsOf } from './edited.ts'

// Rows counted by hand in the files of fullTable, whose first rows are the column names.
test.each<[string, string, Edit[], string[]]>([
  [
    'a rate below its lower one',
    'rates.csv',
    [['bark-nuggets,5,94.50,117.00', 'bark-nuggets,5,94.50,11.70']],
    ['rates.csv 9 upper: “11.70”: not less than the lower rate'],
  ],
  [
    'a figure that is none',
    'settings.csv',
    [['pace,2.5,', 'pace,two,']],
    ['settings.csv 7 value: “two”: a figure such as 12 or 12.50'],
  ],
  [
    'no figure',
    'settings.csv',
    [['pace,2.5,', 'pace,,']],
    ['settings.csv 7 value: empty: a figure such as 12 or 12.50'],
  ],
  [
    'a word of another list',
    'finishes.csv',
    [['shreds', 'shred']],
    ['finishes.csv 2 hatch: “shred”: one of shreds, chips, straw, dots, pebbles'],
  ],
  ['no name', 'finishes.csv', [['Composta', ' ']], ['finishes.csv 6 name in Spanish: “ ”: must be there']],
  [
    'a slug twice',
    'finishes.csv',
    [['dyed-wood', 'stone']],
    [
      'finishes.csv 7 slug: “stone”: already used above',
      'rates.csv 1 from size: no row for “stone” from size 0',
      'rates.csv 1 from size: no row for “stone” from size 5',
      'rates.csv 1 from size: no row for “stone” from size 10',
      'rates.csv 5 finish: “dyed-wood”: not in finishes.csv',
      'rates.csv 6 finish: “dyed-wood”: not in finishes.csv',
      'rates.csv 7 finish: “dyed-wood”: not in finishes.csv',
    ],
  ],
  [
    'a size of job that is none',
    'rates.csv',
    [['stone,10,', 'stone,12,']],
    [
      'rates.csv 1 from size: no row for “stone” from size 10',
      'rates.csv 19 from size: “12”: neither 0 nor in job-sizes.csv',
    ],
  ],
  [
    'sizes of jobs that fall',
    'job-sizes.csv',
    [['5,yd3\r\n10,yd3', '10,yd3\r\n5,yd3']],
    ['job-sizes.csv 3 from size: “5”: larger than the one before'],
  ],
  [
    'a pack of nothing that is there',
    'packs.csv',
    [['extra,edging,roll', 'extra,lawn,roll']],
    [
      'extras.csv 2 pinned way to buy: “roll:delivered”: not one of its ways to buy',
      'packs.csv 6 of: “lawn”: not in extras.csv',
      'price-breaks.csv 7 pack: “roll”: not in packs.csv for this extra',
    ],
  ],
  [
    'a size that isn’t of the kind',
    'packs.csv',
    [['bulk,,,,,', 'bulk,3,,,,']],
    ['packs.csv 4 holds: not for a bulk'],
  ],
  [
    'a kind of an extra’s',
    'packs.csv',
    [[',bulk,,', ',roll,,']],
    [
      'packs.csv 4 kind: “roll”: one of bag, bale, bulk, weighed',
      'price-breaks.csv 5 pack: “bulk”: not in packs.csv for this finish',
    ],
  ],
  [
    'a pack that can’t be had',
    'packs.csv',
    [['Pieza,piece,,,,,,,8,,,3,0.40,0,1,yes,45,6', 'Pieza,piece,,,,,,,8,,,3,0.40,0,1,no,,']],
    ['packs.csv 7 collected: “no”: collected, delivered or both'],
  ],
  [
    'a free delivery of what isn’t brought',
    'packs.csv',
    [['Pieza,piece,,,,,,,8,,,3,0.40,0,1,yes,45,6', 'Pieza,piece,,,,,,,8,,,3,0.40,0,1,yes,,6']],
    ['packs.csv 7 free from: only with a delivery fee, which may be 0'],
  ],
  [
    'a pack without a price',
    'price-breaks.csv',
    [[/extra,edging,piece.*\r\n/, '']],
    ['packs.csv 7 slug: “piece”: has no price in price-breaks.csv'],
  ],
  [
    'a first price that isn’t from 0',
    'price-breaks.csv',
    [['piece,0,', 'piece,2,']],
    ['price-breaks.csv 8 from: “2”: the first price holds from 0'],
  ],
  [
    'two charges in a zone',
    'travel.csv',
    [['SW1A 2AA,25', 'SW1A 2AA,26']],
    ['travel.csv 3 charge: “26”: zone 1 has 25 above'],
  ],
  [
    'a tape less sure than paces',
    'measuring.csv',
    [['tape,0.02,0', 'tape,0.2,0']],
    ['measuring.csv 2 error: “0.2”: can’t be less exact than paces, in the shared part or the rest'],
  ],
  [
    'a row that isn’t known, and so one missing',
    'lying.csv',
    [['thick', 'deep']],
    [
      'lying.csv 1 lying: no row for “thick”',
      'lying.csv 5 lying: “deep”: one of bare; thin; fair; thick; unsure',
    ],
  ],
  [
    'a row twice',
    'planted.csv',
    [['full,', 'half,']],
    ['planted.csv 1 planted: no row for “full”', 'planted.csv 4 planted: “half”: already given above'],
  ],
  ['neither yes nor no', 'tax.csv', [['laying,no', 'laying,nay']], ['tax.csv 9 value: “nay”: yes or no']],
  [
    'areas of no tax',
    'tax.csv',
    [[/(value,unit,meaning\r\n)[\s\S]*/, '$1']],
    ['tax-areas.csv 2 area: tax.csv has no tax, so there is none by area'],
  ],
  [
    'other units and other money',
    'settings.csv',
    [
      ['units,us', 'units,metric'],
      ['USD', 'EUR'],
    ],
    [
      'settings.csv 2 value: “metric”: stays us, as the business is set up',
      'settings.csv 3 value: “EUR”: stays USD, as the business is set up',
    ],
  ],
  [
    'the character NUL',
    'carriers.csv',
    [['Truck', 'Tr\0uck']],
    ['carriers.csv 2 name: holds a character that can’t be kept'],
  ],
])('tells %s with its file, row and column', (_what, file, edits, faults) => {
  expect(faultsOf(edited(file, ...edits))).toEqual(faults)
})
