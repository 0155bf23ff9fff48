import { expect, test } from 'vitest'
import { guessColumns } from '../../src/moving-in/columns.ts'
import { readRecords, textOf } from '../../src/moving-in/records.ts'

const bytes = (text: string) => new TextEncoder().encode(text)

test.each([
  ['UTF-8', bytes('Núñez'), 'Núñez'],
  ['UTF-8 with its mark', bytes('\uFEFFNúñez'), 'Núñez'],
  // As code page 1252 has them: ú is FA, ñ is F1, the dash is 96, the euro 80.
  ['Windows-1252', Uint8Array.from([0x4e, 0xfa, 0xf1, 0x65, 0x7a, 0x20, 0x96, 0x20, 0x80]), 'Núñez – €'],
  ['UTF-16 with its mark', Uint8Array.from([0xff, 0xfe, 0x4e, 0, 0xfa, 0]), 'Nú'],
])('a file in %s is read', (_name, file, text) => {
  expect(textOf(file)).toBe(text)
})

test.each([
  [',', 'Name,Note\nAnn,"a, b; c"\n'],
  [';', 'Name;Note\r\nAnn;"a, b; c"\r\n'],
  ['\t', 'Name\tNote\rAnn\t"a, b; c"'],
  ['of which one stands in quotes', '"Name";"Note, and more"\nAnn;"a, b; c"'],
])('cells parted by %s', (_separator, text) => {
  const read = readRecords(text)
  expect(read.ok && read.rows).toEqual([{ number: 2, cells: ['Ann', 'a, b; c'] }])
})

test('rows keep the number that the spreadsheet has for them; an apostrophe is ours only where we would have put it', () => {
  const read = readRecords("Name,Phone\n\nAnn,'+1 512\n,\n't Hooft,\"two\nlines\"\nBo,'0042")
  expect(read.ok && read.rows).toEqual([
    { number: 3, cells: ['Ann', '+1 512'] },
    { number: 5, cells: ["'t Hooft", 'two\nlines'] },
    { number: 6, cells: ['Bo', '0042'] },
  ])
})

test('columns are guessed in English and Spanish, none of them twice', () => {
  expect(guessColumns(['E-mail', 'Full Name', 'Mobile Phone', 'Street Address', 'ZIP', 'City'])).toEqual({
    name: 1,
    phone: 2,
    email: 0,
    street: 3,
    town: 5,
    postcode: 4,
  })
  expect(
    guessColumns(['Apellidos', 'Nombres', 'Teléfono', 'Correo electrónico', 'Dirección', 'Código postal']),
  ).toEqual({
    name: 1,
    'last name': 0,
    phone: 2,
    email: 3,
    street: 4,
    postcode: 5,
  })
  expect(guessColumns(['Name', 'name', 'nombre'])).toEqual({ name: 0 })
})
