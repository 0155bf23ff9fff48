import { describe, expect, test } from 'vitest'
import { catalogue } from '../../src/language/catalogue.ts'
import type { Sentences } from '../../src/language/sentences.ts'
import { filesOf, type SourceFile } from './files.ts'
import { keysAlike, keysAsked, keysAskedMade, keysMade, partsIn, patternOf } from './sentence-keys.ts'

const { en, es }: Sentences = catalogue
const keys = Object.keys(en)
const paramsOf = (message: string) => [...message.matchAll(/\{(\w+)\}/g)].map(([, name]) => name!).sort()
const views = filesOf('views/**/*.eta')
const beginning = (key: string) => key.split('.')[0]!
const beginnings = (sentences: object) => new Set(Object.keys(sentences).map(beginning))
const hasSentences = ({ text }: SourceFile) => /^export const en\b/m.test(text)
// Those with sentences or keys of faults say which keys there are; whatever else names one can bring it about.
const code = filesOf('src/**/*.ts').filter(
  file => !hasSentences(file) && !/\/fault-keys\.ts$/.test(file.path),
)
const parts = partsIn([...views, ...code], keys)

interface Feature {
  name: string
  sentences: Sentences
}

async function features(): Promise<Feature[]> {
  const files = filesOf('src/language/*.ts').filter(hasSentences)
  const names = files.map(({ path }) => path.replace(/^src\/language\/|\.ts$/g, ''))
  return Promise.all(
    names.map(async name => ({ name, sentences: await import(`../../src/language/${name}.ts`) })),
  )
}

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

test('the catalogue holds every file of sentences, and no two have keys that begin alike', async () => {
  const all = await features()
  expect(all.length).toBeGreaterThan(15)
  expect(all.flatMap(({ sentences }) => Object.keys(sentences.en)).sort()).toEqual([...keys].sort())
  const begins = all.map(({ name, sentences }) => ({ name, begin: [...beginnings(sentences.en)] }))
  expect(begins.filter(({ begin }) => begin.length !== 1)).toEqual([])
  expect(new Set(begins.map(({ begin }) => begin[0])).size).toBe(all.length)
})

describe('every key that a page', () => {
  test('names is there', () => {
    const begins = beginnings(en)
    const alike = views.flatMap(keysAlike).filter(({ key }) => begins.has(beginning(key)))
    const named = [...views.flatMap(keysAsked), ...alike]
    expect(named.length).toBeGreaterThan(200)
    expect(named.filter(({ key }) => en[key] === undefined)).toEqual([])
  })

  test('puts together is there for something that can be put in', () => {
    const made = views.flatMap(keysAskedMade)
    expect(made.length).toBeGreaterThan(7)
    expect(made.filter(one => !keys.some(key => patternOf(one.made, parts).test(key)))).toEqual([])
  })
})

test('every key that the code asks for is there', () => {
  const named = code.flatMap(keysAsked)
  expect(named.length).toBeGreaterThan(50)
  expect(named.filter(({ key }) => en[key] === undefined)).toEqual([])
})

test('no sentence is left that neither a page nor the code can bring about', () => {
  const everywhere = [...views, ...code]
  const named = new Set(everywhere.flatMap(keysAlike).map(({ key }) => key))
  const made = everywhere.flatMap(keysMade).map(one => patternOf(one.made, parts))
  const dead = keys.filter(key => !named.has(key) && !made.some(pattern => pattern.test(key)))
  expect(dead).toEqual([])
})
