import { expect, test } from 'vitest'
import { inPlainCharacters, smsSize } from '../../src/lib/sms.ts'

// 3GPP TS 23.040, section 9.2.3.24.1: 160 septets or 140 bytes, of which the header of a part takes six bytes.
test.each([
  ['', 'GSM-7', 1],
  ['a'.repeat(160), 'GSM-7', 1],
  ['a'.repeat(161), 'GSM-7', 2],
  ['a'.repeat(306), 'GSM-7', 2],
  ['a'.repeat(307), 'GSM-7', 3],
  ['ñé¿¡'.repeat(40), 'GSM-7', 1],
  // Two septets each.
  ['€'.repeat(80), 'GSM-7', 1],
  ['€'.repeat(81), 'GSM-7', 2],
  // An escape and what it escapes stay together: 76 of them leave one septet of a part of 153 empty.
  ['€'.repeat(152), 'GSM-7', 2],
  ['€'.repeat(153), 'GSM-7', 3],
  ['á'.repeat(70), 'UCS-2', 1],
  ['á'.repeat(71), 'UCS-2', 2],
  ['á'.repeat(134), 'UCS-2', 2],
  ['á'.repeat(135), 'UCS-2', 3],
  ['🌿'.repeat(35), 'UCS-2', 1],
  // 33 of them to a part of 67.
  ['🌿'.repeat(66), 'UCS-2', 2],
  ['🌿'.repeat(67), 'UCS-2', 3],
  ['م'.repeat(70), 'UCS-2', 1],
] as const)('%j goes as %s in %i', (text, alphabet, parts) => {
  expect(smsSize(text)).toEqual({ alphabet, parts })
})

test('what would halve the room is said in plain characters, and other scripts stay', () => {
  expect(inPlainCharacters('We’re “here” – 2:30\u202fPM…')).toBe('We\'re "here" - 2:30 PM...')
  expect(inPlainCharacters('Véala o cámbiela aquí, Ñandú')).toBe('Véala o cambiela aqui, Ñandu')
  expect(inPlainCharacters('cafe\u0301')).toBe('café')
  expect(inPlainCharacters('مرحبا 🌿 Łódź')).toBe('مرحبا 🌿 Łodz')
})
