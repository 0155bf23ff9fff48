import { expect, test } from 'vitest'
import type { RateTable } from '../../../src/estimate/rate-table.ts'
import { guarded } from '../../../src/rates/sheets/cells.ts'
import { sheetsOf } from '../../../src/rates/sheets/sheets-of.ts'
import { tableFromSheets } from '../../../src/rates/sheets/table-from-sheets.ts'
import { fullTable } from './tables.ts'

type Edit = [from: string | RegExp, to: string]

/** The sheets of a full table with something written over in one of them; fails when it isn't there. */
function edited(file: string, ...edits: Edit[]): Record<string, string> {
  const files = sheetsOf(fullTable())
  for (const [from, to] of edits) {
    const text = files[file]!.replace(from, to)
    expect(text).not.toBe(files[file])
    files[file] = text
  }
  return files
}

function tableOf(files: Record<string, string>): RateTable {
  const read = tableFromSheets(files, fullTable())
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.table
}

/** Every fault as "file row column: message". */
function faultsOf(files: Record<string, string>): string[] {
  const read = tableFromSheets(files, fullTable())
  return read.ok ? [] : read.faults.map(one => `${one.file} ${one.row} ${one.column}: ${one.message}`)
}

test('takes semicolons with decimal commas, tabs, LF, no mark, empty rows, and columns in any order', () => {
  const table = fullTable()
  const files = sheetsOf(table)
  const carriers = (text: string) => tableOf({ ...files, 'carriers.csv': text }).carriers
  const expected = [
    { name: { en: 'Truck', es: 'Camión' }, volume: '10.5', payload: null },
    { name: { en: 'Cart; small', es: 'Carro' }, volume: '1', payload: '400' },
  ]
  expect(
    carriers('Payload;name;NAME IN SPANISH;volume\n\n;Truck;Camión;10,5\n400;"Cart; small";Carro;1\n;;;\n\n'),
  ).toEqual(expected)
  expect(
    carriers('name\tname in Spanish\tvolume\tpayload\nTruck\tCamión\t10.5\t\nCart; small\tCarro\t1\t400\n'),
  ).toEqual(expected)
  expect(
    carriers(
      '\uFEFFname,name in Spanish,volume,payload,\r\nTruck,Camión,10.5,,\r\nCart; small,Carro,1,400,\r\n,,,,\r\n',
    ),
  ).toEqual(expected)
})

test('a comma parts the cells where semicolons don’t, so a decimal comma is a fault there', () => {
  const text = 'name,name in Spanish,volume,payload\nTruck,Camión,"10,5",\n'
  expect(faultsOf({ ...sheetsOf(fullTable()), 'carriers.csv': text })).toEqual([
    'carriers.csv 2 volume: “10,5”: a figure such as 12 or 12.50',
  ])
})

test('figures as spreadsheets write them over are figures', () => {
  const table = tableOf(
    edited(
      'settings.csv',
      ['promise,0.80', 'promise,0.8'],
      ['pace,2.5', 'pace,2.50E+00'],
      ['stair,0,', 'stair,.01,'],
    ),
  )
  expect([table.promise, table.pace, table.labour.stair]).toEqual(['0.8', '2.5', '0.01'])
  const yes = tableOf(edited('extras.csv', [',yes,', ',TRUE,']))
  expect(yes.extras[0]!.offered).toBe(true)
})

test('no cell of a sheet begins as a formula, and ZIPs and dates stay texts', () => {
  const formulas = ['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', ' =1', '＝1', 'a;=1', 'a\n=1', 'a;\t-1']
  for (const text of formulas)
    for (const cell of guarded(text).split(/[;\t\r\n]/)) expect(cell).not.toMatch(/^\s*[=+\-@＝]/)
  for (const text of ['01234', '1e5', '3/4', 'mar-1', '$5', '.5', 'TRUE', '300 ft', "'tis"])
    expect(guarded(text)).toBe(`'${text}`)
  for (const text of ['Bark nuggets', 'bag-2:collected', 'SW1A 2AA', '#8a5a2b', 'Ton of 2,000 lb'])
    expect(guarded(text)).toBe(text)
  expect(sheetsOf(fullTable())['travel.csv']).toContain(
    "\r\n1,'01234,25\r\n1,SW1A 2AA,25\r\n1,'787*,25\r\n2,'01235,40.50",
  )
})

test('an apostrophe that a spreadsheet has eaten is not missed', () => {
  expect(tableOf(edited('travel.csv', ["'01234", '01234'])).travel[0]!.postcodes[0]).toBe('01234')
})

// Rows counted by hand in the sheets of fullTable, whose first rows are the column names.
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
    [['Pieza,piece,,,,,,8,,3,0.40,0,1,yes,45,6', 'Pieza,piece,,,,,,8,,3,0.40,0,1,no,,']],
    ['packs.csv 7 collected: “no”: collected, delivered or both'],
  ],
  [
    'a free delivery of what isn’t brought',
    'packs.csv',
    [['Pieza,piece,,,,,,8,,3,0.40,0,1,yes,45,6', 'Pieza,piece,,,,,,8,,3,0.40,0,1,yes,,6']],
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
    ['measuring.csv 2 error: “0.2”: must not be less certain than paces, shared part and own part alike'],
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
  ['neither yes nor no', 'tax.csv', [['laying,no', 'laying,nay']], ['tax.csv 7 value: “nay”: yes or no']],
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
  [
    'a column that isn’t known, and so one missing',
    'carriers.csv',
    [['payload', 'weight']],
    ['carriers.csv 1 weight: no such column in this file', 'carriers.csv 1 payload: this column is missing'],
  ],
  [
    'a column twice',
    'carriers.csv',
    [['volume,payload', 'volume,payload,volume']],
    ['carriers.csv 1 volume: this column is there twice'],
  ],
  [
    'a cell too many',
    'carriers.csv',
    [['4000', '4000,5']],
    ['carriers.csv 2 E: a cell beyond the last column'],
  ],
  [
    'a quotation mark out of place',
    'carriers.csv',
    [['Trailer', 'Trai"ler']],
    ['carriers.csv 3 : a quotation mark " is out of place: one inside a cell is written twice'],
  ],
  [
    'too many rows',
    'carriers.csv',
    [[/$/, 'a,a,1,\r\n'.repeat(5001)]],
    ['carriers.csv 5002 : more than 5000 rows'],
  ],
])('tells %s with its file, row and column', (_what, file, edits, faults) => {
  expect(faultsOf(edited(file, ...edits))).toEqual(faults)
})

test('a row keeps its number after empty rows and cells of several lines', () => {
  const text = 'name,name in Spanish,volume,payload\r\n"A\r\nB",C,1,\r\n\r\n,,,\r\nD,E,none,\r\n'
  expect(faultsOf({ ...sheetsOf(fullTable()), 'carriers.csv': text })).toEqual([
    'carriers.csv 5 volume: “none”: a figure such as 12 or 12.50',
  ])
})

test('a file that is missing is named, and the guide needn’t be there', () => {
  const { 'rates.csv': _, 'guide.csv': _guide, ...files } = sheetsOf(fullTable())
  expect(faultsOf(files)).toEqual(['rates.csv 0 : this file is missing'])
  expect(tableOf({ ...files, 'rates.csv': sheetsOf(fullTable())['rates.csv']! })).toEqual(fullTable())
})

test('faults of several files are told at once', () => {
  const files = edited('settings.csv', ['stair,0,', 'stair,9,'])
  files['carriers.csv'] = files['carriers.csv']!.replace(',10,', ',0,')
  expect(faultsOf(files)).toEqual([
    'settings.csv 17 value: “9”: from 0 to 1',
    'carriers.csv 2 volume: “0”: more than zero',
  ])
})
