import { join } from 'node:path'
import { build } from 'esbuild'
import { expect, test } from 'vitest'
import { catalogue } from '../../src/language/catalogue.ts'
import * as common from '../../src/language/common.ts'
import * as range from '../../src/language/range.ts'
import { tOf, together } from '../../src/language/sentences.ts'

const LANGUAGE = join(import.meta.dirname, '../../src/language')

async function bundle(contents: string): Promise<string> {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: LANGUAGE, loader: 'ts' },
    bundle: true,
    write: false,
    format: 'esm',
    charset: 'utf8',
    logLevel: 'silent',
  })
  return outputFiles[0]!.text
}

const ofRange = `
  import * as range from './range.ts'
  import { together, tOf } from './sentences.ts'
  export const t = tOf(range)
`

// As esbuild writes them: in double quotes, or in others where one stands inside.
function saidIn(code: string, sentences: Record<string, string>): string[] {
  const written = (text: string) => JSON.stringify(text).slice(1, -1)
  return Object.entries(sentences)
    .filter(([, text]) => code.includes(written(text)) || code.includes(text))
    .map(([key]) => key)
}

test('a bundle that takes one feature’s sentences holds them', async () => {
  const code = await bundle(ofRange)
  expect(saidIn(code, range.en)).toEqual(Object.keys(range.en))
  expect(saidIn(code, range.es)).toEqual(Object.keys(range.es))
  const { t } = await import(`data:text/javascript,${encodeURIComponent(code)}`)
  expect(t('es', 'range.likely', { likely: '$700' })).toBe('Lo más probable: unos $700.')
})

test('and no sentence of another', async () => {
  const code = await bundle(ofRange)
  const { en, es } = catalogue
  const others = (sentences: Record<string, string>) =>
    Object.fromEntries(Object.entries(sentences).filter(([key]) => !(key in range.en)))
  expect(Object.keys(others(en)).length).toBeGreaterThan(400)
  expect(code).not.toContain('Skip to content')
  expect(Object.keys(others(en)).filter(key => code.includes(`"${key}"`))).toEqual([])
  const long = (sentences: Record<string, string>) =>
    Object.fromEntries(Object.entries(sentences).filter(([, text]) => text.length > 25))
  expect(saidIn(code, long(others(en)))).toEqual([])
  expect(saidIn(code, long(others(es)))).toEqual([])
})

test('quantities in words bring along their units alone', async () => {
  const code = await bundle(`export { quantityInWords } from './quantity-in-words.ts'`)
  expect(code).toContain('{n} square feet')
  expect(code).not.toContain('Skip to content')
})

test('a bundle of everything would hold the others, so that this test can tell', async () => {
  const code = await bundle(`export { t } from './catalogue.ts'`)
  expect(saidIn(code, common.en)).toEqual(Object.keys(common.en))
})

test('a t of some features refuses what is of another', () => {
  const t = tOf(together(range, common))
  expect(t('en', 'common.skip')).toBe('Skip to content')
  // @ts-expect-error: of another feature
  expect(() => t('en', 'staff.nav')).toThrow('staff.nav')
})
