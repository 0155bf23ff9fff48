import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const rectangle = {
  'beds.0.shape': 'rectangle',
  'beds.0.sizes.length': '20 ft',
  'beds.0.sizes.width': '5 ft',
  'beds.0.finish': 'stone',
}

/** The page that pressing a button of the form leads to, without scripts. */
async function pressed(button: string, fields: Record<string, string>): Promise<string> {
  const answer = await app
    .browser()
    .post('/ballpark')
    .type('form')
    .send({ ...fields, do: button })
  expect(answer.status).toBe(303)
  return (await app.browser().get(answer.headers.location!.split('#')[0]!)).text
}

const typedIn = (page: string, id: string) =>
  /value="([^"]*)"/.exec(new RegExp(`<input[^>]* id="${id}"[^>]*>`).exec(page)![0])![1]

test('what has two readings is marked, and one press puts the other in', async () => {
  const doubtful = { ...rectangle, 'beds.0.sizes.length': '12-6' }
  const page = (await app.browser().get(`/?${new URLSearchParams(doubtful)}`)).text
  expect(page).toMatch(/id="beds-0-sizes-length-echo"[^>]*>= 12 ft 6 in \?</)
  const [, action] = /value="(read\.beds\.0\.sizes\.length=[^"]*)"[^>]*>or 6 ft - 12 ft\?</.exec(page) ?? []
  const other = await pressed(action!, doubtful)
  expect(typedIn(other, 'beds-0-sizes-length')).toBe('6 ft - 12 ft')
  expect(other).toMatch(/id="beds-0-sizes-length-echo"[^>]*>= 9 ft ± 3 ft</)
  expect(other).not.toContain('value="read.')
})

test('a bare volume is asked for its unit, in the reader’s language', async () => {
  const bare = { ...rectangle, 'beds.0.shape': 'volume', 'beds.0.sizes.volume': '2' }
  const page = (await app.browser().get(`/?${new URLSearchParams({ ...bare, language: 'es' })}`)).text
  expect(page).toMatch(/id="beds-0-sizes-volume-echo"[^>]*>¿cuál\?</)
  expect([...page.matchAll(/>(¿o [^<]*)</g)].map(([, says]) => says)).toEqual([
    '¿o 2 yardas cúbicas?',
    '¿o 2 pies cúbicos?',
  ])
  const read = await pressed('read.beds.0.sizes.volume=2 yd³', bare)
  expect(read).toMatch(/id="beds-0-sizes-volume-echo"[^>]*>= 54 ft³/)
})

test.each([
  'read.beds.0.sizes.__proto__=3',
  'read.beds.7.sizes.length=3',
  'read.beds.0.finish=gold',
  'read.=',
])('a press of %s changes nothing', async action => {
  const page = await pressed(action, rectangle)
  expect(typedIn(page, 'beds-0-sizes-length')).toBe('20 ft')
  expect(page).toMatch(/name="beds\.0\.finish" value="stone"[^>]* checked/)
})
