import { expect, test } from 'vitest'
import { moneyInWords } from '../../src/language/money-in-words.ts'

test.each([
  ['1240', 'USD', '$1,240.00'],
  ['24.5', 'EUR', '€24.50'],
  ['1240', 'GBP', '£1,240.00'],
  // A business has one currency, so its dollars need no country.
  ['19.99', 'CAD', '$19.99'],
  ['1240', 'JPY', '¥1,240'],
])('%s %s is read as %s, in both languages', (amount, currency, words) => {
  expect(moneyInWords(amount, currency, 'en')).toBe(words)
  expect(moneyInWords(amount, currency, 'es')).toBe(words)
})

test('cents are left off where there are none, when asked for', () => {
  expect(moneyInWords('180.00', 'USD', 'en', { whole: true })).toBe('$180')
  expect(moneyInWords('180.50', 'USD', 'en', { whole: true })).toBe('$180.50')
})
