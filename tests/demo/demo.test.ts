import { cp, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { HELPER, OWNER } from '../../src/demo/business.ts'
import { type Bedwright, freePort, ownFolder, spawnBedwright, startBedwright } from '../helpers/process.ts'
import { formBody } from '../helpers/set-up.ts'
import { until } from '../helpers/until.ts'
import { ballparksAgain, quotesAgain } from '../helpers/worked-out-again.ts'
import { raiseEveryPrice } from './raise-prices.ts'

/** Every stage that the staff can meet. */
const STAGES = {
  new: 6,
  'visit set': 3,
  'week chosen': 1,
  measured: 2,
  quoted: 2,
  booked: 3,
  'part done': 1,
  done: 1,
  billed: 2,
  paid: 1,
  'not taken': 3,
  'called off': 2,
  "can't do": 2,
  lapsed: 2,
}

const PROGRAM = 'src/demo/main.ts'
const environment = async (folder: string) => ({ DEMO_DIR: folder, PORT: await freePort() })
const spawnDemo = async (folder: string) => spawnBedwright(await environment(folder), PROGRAM)
const startDemo = async (folder: string, ...words: string[]) =>
  startBedwright(await environment(folder), PROGRAM, words)

async function homeOf(demo: Bedwright): Promise<string> {
  await until(() => demo.said.some(line => line.includes('To stop it')), { within: 90_000, what: 'the demo' })
  return demo.said.map(line => /For homeowners +(http\S+)\//.exec(line)?.[1]).find(Boolean)!
}

async function stop(demo: Bedwright): Promise<void> {
  demo.child.kill('SIGINT')
  expect(await demo.ended()).toBe(0)
}

async function stagesIn(folder: string): Promise<Record<string, number>> {
  const store = await openStore({ dataDir: folder })
  const { rows } = await store.executeSql('select stage, count(*) from quote_request group by stage')
  await store.close()
  return Object.fromEntries((rows as { stage: string; count: number }[]).map(row => [row.stage, row.count]))
}

async function signInStatus(home: string, { email, password }: typeof OWNER): Promise<number> {
  const headers = { origin: home }
  const body = formBody({ email, password })
  const answer = await fetch(`${home}/sign-in`, { method: 'POST', headers, body, redirect: 'manual' })
  return answer.status
}

/** A demo that was filled and stopped, after a filling that was broken off half way. */
let filled: string

beforeAll(async () => {
  filled = await mkdtemp(join(tmpdir(), 'bedwright-demo-'))
  const brokenOff = await spawnDemo(filled)
  await until(() => brokenOff.said.some(line => /\b5 of \d+/.test(line)), {
    within: 90_000,
    what: 'half of it',
  }).finally(() => brokenOff.child.kill('SIGKILL'))
  await brokenOff.ended()
  const second = await spawnDemo(filled)
  await homeOf(second).finally(() => second.child.kill('SIGINT'))
  expect(await second.ended()).toBe(0)
}, 240_000)

afterAll(() => rm(filled, { recursive: true, force: true }))

/** A copy of it whose business has another name, so that it is seen whether that is kept. */
async function changedCopy(): Promise<string> {
  const folder = await ownFolder()
  await cp(filled, folder, { recursive: true })
  const store = await openStore({ dataDir: folder })
  await store.executeSql(`update business set name = 'Changed Beds'`)
  await store.close()
  return folder
}

async function expectSaysHowToGetIn(demo: Bedwright, home: string): Promise<void> {
  for (const person of [OWNER, HELPER]) {
    expect(demo.said.join('\n')).toContain(`${person.email}  with  ${person.password}`)
    expect(await signInStatus(home, person)).toBe(303)
  }
}

test('a filling that was broken off half way is begun anew', async () => {
  expect(await stagesIn(filled)).toEqual(STAGES)
})

test('what was done in it is kept, and no other one uses its folder meanwhile', async () => {
  const folder = await changedCopy()
  const demo = await startDemo(folder)
  const home = await homeOf(demo)
  const page = await (await fetch(home)).text()
  expect(page).toContain('Changed Beds')
  expect(page).toContain('the business, the people, and the prices are made up')
  expect(demo.said.join('\n')).not.toContain('Filling')
  await expectSaysHowToGetIn(demo, home)

  const second = await startDemo(folder, '--fresh')
  expect(await second.ended()).toBe(1)
  expect(second.complained).toEqual([`Another Bedwright is using the folder ${folder}. Stop it first.`])
  await stop(demo)
  expect(await stagesIn(folder)).toEqual(STAGES)
}, 240_000)

test('it starts over when asked: what was there is gone before the filling begins', async () => {
  const folder = await changedCopy()
  const demo = await startDemo(folder, '--fresh')
  const begun = { within: 90_000, what: 'the filling' }
  await until(() => demo.said.some(line => /\b5 of \d+/.test(line)), begun)
  demo.child.kill('SIGKILL')
  await demo.ended()
  const store = await openStore({ dataDir: folder })
  const { rows } = await store.executeSql('select name from business')
  const requests = await store.executeSql('select count(*) as count from quote_request')
  await store.close()
  expect(rows).toEqual([{ name: 'Fernhollow Beds' }])
  expect((requests.rows[0] as { count: number }).count).toBeLessThan(22)
}, 240_000)

test('what it stored comes out the same to the cent after later versions', async () => {
  const folder = await changedCopy()
  const store = await openStore({ dataDir: folder })
  onTestFinished(store.close)
  expect(await raiseEveryPrice(store)).toBe(7)
  const [ballparks, quotes] = [await ballparksAgain(store.db), await quotesAgain(store.db)]
  expect([ballparks.length, quotes.length]).toEqual([31, 16])
  for (const { of, stored, again } of [...ballparks, ...quotes]) expect([of, again]).toEqual([of, stored])
})
