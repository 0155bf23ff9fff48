import { expect, test } from 'vitest'
import { filesOf, type SourceFile } from './files.ts'
import { importsOf } from './rooms.ts'

const paths = (files: SourceFile[]) => files.map(({ path }) => path)
const source = filesOf('src/**/*.ts')

test('only the configuration reads the environment', () => {
  expect(paths(source.filter(({ text }) => text.includes('process.env')))).toEqual(['src/config.ts'])
})

test('migrations import nothing of the application, which changes while they stay as they are', () => {
  const migrations = filesOf('migrations/20*.ts')
  expect(migrations.length).toBeGreaterThan(0)
  expect(paths(migrations.filter(({ text }) => /from '\.\.?\//.test(text)))).toEqual([])
})

test('the estimate does no input or output, and of ours imports itself and three pure helpers', () => {
  const allowed = ['src/lib/decimal.ts', 'src/lib/once.ts', 'src/lib/plain-decimal.ts']
  const estimate = source.filter(({ path }) => path.startsWith('src/estimate/'))
  expect(estimate.length).toBeGreaterThan(0)
  const leaving = importsOf(estimate).filter(
    ({ to }) => !to.startsWith('src/estimate/') && !allowed.includes(to),
  )
  expect(leaving).toEqual([])
  const doing = estimate.filter(({ text }) => /from 'node:|fetch\(|new Date\(|Date\.now/.test(text))
  expect(paths(doing)).toEqual([])
})

test('one file imports the decimals', () => {
  const importers = source.filter(({ text }) => text.includes("from 'decimal.js'"))
  expect(paths(importers)).toEqual(['src/lib/decimal.ts'])
})

test('forms are read by FormFields alone: zod is for the settings, the rate table, and what a device answers', () => {
  const users = paths(source.filter(({ text }) => /import \{[^}]*\} from 'zod'/.test(text)))
  expect(users.filter(path => !path.startsWith('src/estimate/table/'))).toEqual([
    'src/account/passkey-answer.ts',
    'src/config.ts',
  ])
})

test('nothing but the start asks for the present moment', () => {
  const asking = source.filter(({ text }) => /new Date\(\)|Date\.now\(|Temporal\.Now/.test(text))
  expect(paths(asking)).toEqual(['src/command/main.ts', 'src/demo/main.ts', 'src/main.ts'])
})

test('no file grows past 250 lines; a migration is written once', () => {
  const files = filesOf('src/**/*.ts', 'tests/**/*.ts', 'views/**/*.{eta,css,ts}')
  const long = files.filter(({ text }) => text.trimEnd().split('\n').length > 250)
  expect(paths(long)).toEqual([])
})

test('no file has a name that says nothing', () => {
  const names = /(^|\/)(utils|misc|index|types|helpers|common)\.ts$/
  const allowed = ['src/language/common.ts']
  const found = paths(filesOf('src/**/*.ts', 'tests/**/*.ts')).filter(path => names.test(path))
  expect(found.filter(path => !allowed.includes(path))).toEqual([])
})
