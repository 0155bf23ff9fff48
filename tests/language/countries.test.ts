import { describe, expect, test } from 'vitest'
import { catalogue, t, translator } from '../../src/language/catalogue.ts'
import { COUNTRIES, countryOfUnits, wordsOf } from '../../src/language/countries.ts'
import type { Sentences } from '../../src/language/sentences.ts'

const { en, es }: Sentences = catalogue

describe('words that change from country to country', () => {
  test.each([
    ['US', 'ZIP code', 'meters', 'color'],
    ['GB', 'postcode', 'metres', 'colour'],
    ['IE', 'postcode', 'metres', 'colour'],
    ['AU', 'postcode', 'metres', 'colour'],
    ['NZ', 'postcode', 'metres', 'colour'],
    ['CA', 'postal code', 'metres', 'colour'],
    ['ZA', 'postal code', 'metres', 'colour'],
    ['ZZ', 'postcode', 'metres', 'colour'],
  ])('are those of %s', (country, postcodeWord, meters, color) => {
    expect(wordsOf(country, 'en')).toMatchObject({ postcodeWord, meters, color })
    expect(wordsOf(country, 'es')).toMatchObject({ postcodeWord: 'código postal', meters: 'metros' })
  })

  test('stand in the sentences', () => {
    expect(translator('en', 'GB')('form.postcode')).toBe('Postcode of the property')
    expect(translator('en', 'US')('form.postcode')).toBe('ZIP code of the property')
    expect(translator('en', 'CA')('form.postcode')).toBe('Postal code of the property')
    expect(translator('es', 'GB')('form.postcode')).toBe('Código postal de la propiedad')
    expect(translator('en', 'NZ')('form.area-hint-metric')).toBe('In square metres.')
    expect(t('en', 'form.area-hint-metric')).toBe('In square meters.')
  })

  test('leave labor alone', () => {
    const say = translator('en', 'GB')
    expect(say('days.hours', { hours: 3 })).toBe('3 labor hours')
  })

  test('give way to a param of the same name', () => {
    expect(t('en', 'form.area-hint-metric', { meters: 'rods' })).toBe('In square rods.')
  })

  test('are filled in for every country that can be picked, in every sentence', () => {
    const words = Object.keys(wordsOf('US', 'en'))
    const holds = (text: string) => words.some(word => text.includes(`{${word}}`))
    const keys = Object.keys(en).filter(
      key => holds(en[key]!) || holds(es[key]!),
    ) as (keyof typeof catalogue.en)[]
    expect(keys.length).toBeGreaterThan(8)
    for (const country of Object.keys(COUNTRIES))
      for (const language of ['en', 'es'] as const)
        for (const key of keys) expect(translator(language, country)(key)).not.toMatch(/[{}]/)
  })
})

test('codes are those of ISO 3166, or the one that no country has', () => {
  const names = new Intl.DisplayNames('en', { type: 'region' })
  for (const [code, name] of Object.entries(COUNTRIES))
    expect([code, names.of(code)]).toEqual([code, code === 'ZZ' ? 'Unknown Region' : name])
})

test('a business that hasn’t said works in the United States where its units are theirs', () => {
  expect([countryOfUnits('us'), countryOfUnits('metric')]).toEqual(['US', 'ZZ'])
})
