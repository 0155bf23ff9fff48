import { expect, test } from 'vitest'
import { guarded, unguarded } from '../../../src/rates/csv/cells.ts'
import { filesOf } from '../../../src/rates/csv/files-of.ts'
import { type Edit, edited, faultsOf, tableOf } from './edited.ts'
import { fullTable } from './tables.ts'

test('takes semicolons with decimal commas, tabs, LF, no mark, empty rows, and columns in any order', () => {
  const table = fullTable()
  const files = filesOf(table)
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
  expect(faultsOf({ ...filesOf(fullTable()), 'carriers.csv': text })).toEqual([
    'carriers.csv 2 volume: “10,5”: a figure such as 12 or 12.50',
  ])
})

test('figures as spreadsheets write them over are figures', () => {
  const table = tableOf(
    edited(
      'settings.csv',
      ['promise,0.80', 'promise,0.8'],
      ['pace,2.5', 'pace,2.50E+00'],
      ['stair,0.02,', 'stair,.01,'],
    ),
  )
  expect([table.promise, table.pace, table.labor.stair]).toEqual(['0.8', '2.5', '0.01'])
  for (const [cell, offered] of [
    ['TRUE', true],
    ['VERDADERO', true],
    ['FALSO', false],
  ] as const)
    expect(tableOf(edited('extras.csv', [',yes,', `,${cell},`])).extras[0]!.offered).toBe(offered)
})

test('no cell of a file begins as a formula, and ZIPs and dates stay texts', () => {
  const formulas = ['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', ' =1', '＝1', 'a;=1', 'a\n=1', 'a;\t-1']
  for (const text of formulas)
    for (const cell of guarded(text).split(/[;\t\r\n]/)) expect(cell).not.toMatch(/^\s*[=+\-@＝]/)
  for (const text of ['01234', '1e5', '3/4', 'mar-1', '$5', '.5', 'TRUE', '300 ft', "'tis"])
    expect(guarded(text)).toBe(`'${text}`)
  for (const text of ['Bark nuggets', 'bag-2:collected', 'SW1A 2AA', '#8a5a2b', 'Ton of 2,000 lb'])
    expect(guarded(text)).toBe(text)
  expect(filesOf(fullTable())['travel.csv']).toContain(
    "\r\n1,'01234,25,1.25,40\r\n1,SW1A 2AA,25,1.25,40\r\n1,'787*,25,1.25,40\r\n2,'01235,40.50,,",
  )
})

test('long runs of marks and spaces are soon made safe, and come back as they were', () => {
  for (const run of ['\t', ' ', '\r\n', '; ', ';=', 'a-']) {
    const text = `${run.repeat(200_000)}x`
    expect(unguarded(guarded(text)) === text).toBe(true)
  }
}, 5000)

test('an apostrophe that a spreadsheet has eaten is not missed', () => {
  expect(tableOf(edited('travel.csv', ["'01234", '01234'])).travel[0]!.postcodes[0]).toBe('01234')
})

test.each<[string, string, Edit[], string[]]>([
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
    'travel.csv',
    [[/$/, '3,90210,5\r\n'.repeat(5000)]],
    ['travel.csv 5002 : more than 5000 rows'],
  ],
  [
    'too many of what other files are about',
    'carriers.csv',
    [[/$/, 'a,a,1,\r\n'.repeat(200)]],
    ['carriers.csv 202 : more than 200 rows'],
  ],
])('tells %s with its file, row and column', (_what, file, edits, faults) => {
  expect(faultsOf(edited(file, ...edits))).toEqual(faults)
})

test('a row keeps its number after empty rows and cells of several lines', () => {
  const text = 'name,name in Spanish,volume,payload\r\n"A\r\nB",C,1,\r\n\r\n,,,\r\nD,E,none,\r\n'
  expect(faultsOf({ ...filesOf(fullTable()), 'carriers.csv': text })).toEqual([
    'carriers.csv 5 volume: “none”: a figure such as 12 or 12.50',
  ])
})

test('empty rows after the last are no rows, up to some thousands', () => {
  expect(tableOf(edited('carriers.csv', [/$/, ',,,\r\n'.repeat(9000)]))).toEqual(fullTable())
  expect(faultsOf(edited('carriers.csv', [/$/, '\r\n'.repeat(90_000)]))).toEqual([
    'carriers.csv 20000 : more than 200 rows',
  ])
})

test('a file that is missing is named, and the guide needn’t be there', () => {
  const { 'rates.csv': _, 'guide.csv': _guide, ...files } = filesOf(fullTable())
  expect(faultsOf(files)).toEqual(['rates.csv 0 : this file is missing'])
  expect(tableOf({ ...files, 'rates.csv': filesOf(fullTable())['rates.csv']! })).toEqual(fullTable())
})

test('faults of several files are told at once', () => {
  const files = edited('settings.csv', ['stair,0.02,', 'stair,9,'])
  files['carriers.csv'] = files['carriers.csv']!.replace(',10,', ',0,')
  const row = files['settings.csv']!.split('\r\n').findIndex(line => line.startsWith('stair,')) + 1
  expect(faultsOf(files)).toEqual([
    `settings.csv ${row} value: “9”: from 0 to 1`,
    'carriers.csv 2 volume: “0”: more than zero',
  ])
})

test('a promise that no range keeps is refused', () => {
  const files = edited('settings.csv', ['promise,0.80', 'promise,0.96'])
  const row = files['settings.csv']!.split('\r\n').findIndex(line => line.startsWith('promise,')) + 1
  expect(faultsOf(files)).toEqual([`settings.csv ${row} value: “0.96”: from 0.5 to 0.95`])
  expect(tableOf(edited('settings.csv', ['promise,0.80', 'promise,0.95'])).promise).toBe('0.95')
})
