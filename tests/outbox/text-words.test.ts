import { expect, test } from 'vitest'
import { t } from '../../src/language/catalogue.ts'
import { dayInWords, momentInWords } from '../../src/language/dates-in-words.ts'
import { moneyInWords } from '../../src/language/money-in-words.ts'
import { smsSize } from '../../src/lib/sms.ts'
import { textWords } from '../../src/outbox/text-words.ts'

const LINK = `https://beds.example.com/r/${'A'.repeat(43)}`

const NAMES = {
  plain: 'Fern Beds',
  long: `Fern ${'and Sons '.repeat(10)}Garden Beds`,
  emoji: '🌿 Fern Beds 🌱👩‍🌾',
  'right to left': 'حدائق السرخس',
  // 100 letters, as long as a name may be.
  'right to left and long': 'حدائق السرخس والنخيل '.repeat(5).slice(0, 100),
  'two lines': 'Fern\r\nBeds',
}

/** Every text there is, as long as it gets. */
function briefs(language: 'en' | 'es'): string[] {
  const number = '26-10042'
  const when = momentInWords('2026-09-23T20:30:00Z', 'America/Chicago', language)
  const total = moneyInWords('123456.78', 'USD', language)
  const day = dayInWords('2026-09-23', language)
  return [
    t(language, 'text.received', { number }),
    t(language, 'text.own-link', { number }),
    t(language, 'text.visit', { number, when }),
    t(language, 'text.quote', { number, total }),
    t(language, 'text.quote-again', { number, total }),
    t(language, 'text.booked', { number, day }),
    t(language, 'text.visit-off', { number }),
    t(language, 'text.canceled', { number }),
    t(language, 'text.turned-down', { number }),
    t(language, 'text.taken-back', { number }),
  ]
}

test.each(Object.entries(NAMES))(
  'a name that is %s leaves every text two messages long at most',
  (_what, name) => {
    for (const language of ['en', 'es'] as const)
      for (const brief of briefs(language)) {
        const text = textWords(name, brief, LINK)
        expect(smsSize(text).parts).toBeLessThanOrEqual(2)
        expect(text).toContain('26-10042')
        expect(text.endsWith(` ${LINK}`)).toBe(true)
        expect(text).not.toMatch(/[\r\n]/)
        expect(text.isWellFormed()).toBe(true)
      }
  },
)

test('a business with a plain name has texts in plain characters, in Spanish too', () => {
  for (const language of ['en', 'es'] as const)
    for (const brief of briefs(language))
      expect(smsSize(textWords('Fern Beds', brief, LINK)).alphabet).toBe('GSM-7')
})

test('a name is kept as it is where there is room, without its emoji where there isn’t, and cut last', () => {
  expect(textWords('🌿 Fern', 'Hello:', 'https://a.example')).toBe('🌿 Fern: Hello: https://a.example')
  expect(textWords('🌿 Fern', 'x'.repeat(150), LINK)).toMatch(/^Fern: x/)
  expect(textWords('Fern and Sons Garden Beds of Ohio', 'x'.repeat(205), LINK)).toMatch(
    /^Fern and Sons Garden Bed\.\.\.: x/,
  )
})
