import { globSync, readFileSync } from 'node:fs'
import { join, matchesGlob } from 'node:path'
import { expect, test } from 'vitest'
import config, { LEFT_OUT, ON_ONE_STORE } from '../vitest.config.ts'

const root = join(import.meta.dirname, '../..')
const testing = /\b(test|it)\b[^\n]*from 'vitest'/
const all = globSync('{src,views,migrations,tests}/**/*.{ts,js,mts,cts}', { cwd: root })
const projects = (config as { test: { projects: { test: Project }[] } }).test.projects.map(({ test }) => test)
const tests = all.filter(file => testing.test(readFileSync(join(root, file), 'utf8')))

test('every file with tests is run, by one kind of run or once on each store', () => {
  expect(tests.length).toBeGreaterThan(10)
  const onStores = projects.some(({ name }) => name === 'postgres') ? 'embedded,postgres' : 'embedded'
  const kinds = ['pure', 'waiting', 'faults', 'timed', 'browser', 'every-page', onStores]
  const right = (file: string) =>
    ON_ONE_STORE.includes(file) ? runs(file) === 'embedded' : kinds.includes(runs(file))
  const wrong = tests.filter(file => !matches(file, LEFT_OUT) && !right(file))
  expect(wrong).toEqual([])
})

function runs(file: string): string {
  const matching = projects.filter(
    ({ include, exclude = [] }) => matches(file, include) && !matches(file, exclude),
  )
  return matching.map(({ name }) => name).join() || 'none'
}

interface Project {
  name: string
  include: string[]
  exclude?: string[]
}

function matches(file: string, globs: string[]): boolean {
  return globs.some(glob => matchesGlob(file, glob))
}
