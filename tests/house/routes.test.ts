import { expect, test } from 'vitest'
import { printRoutes } from '../../src/http/route-table.ts'
import { allRoutes } from './all-routes.ts'
import { filesOf } from './files.ts'

test('the table of routes in DEVELOPERS.md is what the application registers', async () => {
  const [developers] = filesOf('DEVELOPERS.md')
  const table = printRoutes(await allRoutes())
  // To mend it: npm run routes, and put what that prints in place of the table.
  expect(developers?.text).toContain(`\n\n${table}\n\n`)
})

test('nothing that changes something is done by GET', async () => {
  const posts = (await allRoutes()).filter(({ method }) => method !== 'GET')
  expect(posts.filter(({ method }) => method !== 'POST')).toEqual([])
  expect(posts.length).toBeGreaterThan(0)
})
