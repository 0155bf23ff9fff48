import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { manyBedsTyped } from '../helpers/many-beds.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const BEDS = { ...manyBedsTyped(3), 'beds.1.depth': '2 in', 'beds.2.sizes.inner': 'wide' }

/** What stands within the elements that follow the typing, by their ids. */
function following(page: string): Record<string, string> {
  const marked = /<(\w+)[^>]* id="([^"]+)"[^>]* data-live[^>]*>|<(output) class="echo" id="([^"]+)"[^>]*>/g
  const found = [...page.matchAll(marked)].map(match => {
    const [tag, name = match[3]!, id = match[4]!] = match
    return [id, insideOf(page.slice(match.index + tag.length), name)]
  })
  return Object.fromEntries(found)
}

function insideOf(rest: string, name: string): string {
  let depth = 1
  for (const match of rest.matchAll(new RegExp(`<(/?)${name}\\b`, 'g'))) {
    depth += match[1] ? -1 : 1
    if (depth === 0) return rest.slice(0, match.index).trim()
  }
  throw new Error(`A ${name} isn’t closed.`)
}

test('what follows the typing has all that the page marks so, and the same in it', async () => {
  const page = (await app.browser().get(`/?${new URLSearchParams(BEDS)}`)).text
  const live = await app
    .browser()
    .post('/ballpark')
    .type('form')
    .set({ accept: 'text/html', 'x-part': 'live' })
    .send(BEDS)
  const onPage = following(page)
  expect(Object.keys(onPage).length).toBeGreaterThan(20)
  for (const [id, inside] of Object.entries(onPage)) {
    const [tag, name] = new RegExp(`<(\\w+) [^>]*id="${id}"[^>]*>`).exec(live.text) ?? []
    expect(tag, id).toBeDefined()
    expect(insideOf(live.text.split(tag!)[1]!, name!), id).toBe(inside)
  }
})

test('nothing that is typed into comes with it', async () => {
  const live = await app
    .browser()
    .post('/ballpark')
    .type('form')
    .set({ accept: 'text/html', 'x-part': 'live' })
    .send(BEDS)
  expect(live.text).not.toMatch(/<input|<select|<textarea/)
})
