import { expect, test } from 'vitest'
import { catalogue } from '../../src/language/catalogue.ts'
import { filesOf } from './files.ts'

const { en, es } = catalogue
const paramsOf = (message: string) => [...message.matchAll(/\{(\w+)\}/g)].map(([, name]) => name!).sort()

test('both languages have the same messages, none empty', () => {
  expect(Object.keys(es).sort()).toEqual(Object.keys(en).sort())
  const empty = Object.entries({ ...en, ...es }).filter(([, message]) => message.trim() === '')
  expect(empty).toEqual([])
})

test('a message takes the same params in both languages', () => {
  const differing = Object.keys(en).filter(key => {
    const both = [en, es].map(words => [...new Set(paramsOf(words[key]!))].join())
    return both[0] !== both[1]
  })
  expect(differing).toEqual([])
})

test('every message that a page or the code names is there', () => {
  const named = filesOf('views/**/*.eta', 'src/**/*.ts').flatMap(({ path, text }) =>
    [...text.matchAll(/\bt\(\s*(?:'en',\s*|language,\s*)?'([a-z]+(?:\.[\w-]+)+)'/g)].map(([, key]) => ({
      path,
      key: key!,
    })),
  )
  expect(named.length).toBeGreaterThan(50)
  expect(named.filter(({ key }) => en[key] === undefined)).toEqual([])
})

test('no message is written twice under two features', () => {
  const prefixes = new Map<string, Set<string>>()
  for (const { path, text } of filesOf('src/language/*.ts')) {
    const english = text.split(/export const (?:es|\w+Es)\b/)[0]!
    for (const [, key] of english.matchAll(/^ {2}'([a-z]+\.[\w.-]+)':/gm)) {
      prefixes.set(key!, (prefixes.get(key!) ?? new Set()).add(path))
    }
  }
  expect([...prefixes].filter(([, files]) => files.size > 1)).toEqual([])
})
