import { expect, test } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { HELPER, OWNER } from '../../src/demo/business.ts'
import { type Bedwright, freePort, ownFolder, startBedwright } from '../helpers/process.ts'
import { formBody } from '../helpers/set-up.ts'
import { until } from '../helpers/until.ts'

/** Every stage that the staff can meet before the work itself. */
const STAGES = {
  new: 3,
  'visit set': 2,
  measured: 1,
  quoted: 2,
  booked: 2,
  'not taken': 1,
  'called off': 1,
  "can't do": 1,
  lapsed: 1,
}

const startDemo = async (folder: string, ...words: string[]) =>
  startBedwright({ DEMO_DIR: folder, PORT: await freePort() }, 'src/demo/main.ts', words)

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

test('the demo is filled once, says how to get in, keeps what was done, and starts over when asked', async () => {
  const folder = await ownFolder()
  const first = await startDemo(folder)
  const home = await homeOf(first)
  expect(await (await fetch(home)).text()).toContain('the business, the people and the prices are invented')
  for (const person of [OWNER, HELPER]) {
    expect(first.said.join('\n')).toContain(`${person.email}  with  ${person.password}`)
    expect(await signInStatus(home, person)).toBe(303)
  }

  const second = await startDemo(folder, '--fresh')
  expect(await second.ended()).toBe(1)
  expect(second.complained).toEqual([`Another Bedwright is using the folder ${folder}: stop it first.`])
  await stop(first)
  expect(await stagesIn(folder)).toEqual(STAGES)

  const store = await openStore({ dataDir: folder })
  await store.executeSql(`update business set name = 'Changed Beds'`)
  await store.close()
  const third = await startDemo(folder)
  expect(await (await fetch(await homeOf(third))).text()).toContain('Changed Beds')
  expect(third.said.join('\n')).not.toContain('Filling')
  await stop(third)

  const fourth = await startDemo(folder, '--fresh')
  expect(await (await fetch(await homeOf(fourth))).text()).not.toContain('Changed Beds')
  await stop(fourth)
  expect(await stagesIn(folder)).toEqual(STAGES)
}, 240_000)

test('a filling that was broken off half way is begun anew', async () => {
  const folder = await ownFolder()
  const first = await startDemo(folder)
  await until(() => first.said.some(line => line.includes('5 of 14')), { within: 90_000, what: 'half of it' })
  first.child.kill('SIGKILL')
  await first.ended()
  const second = await startDemo(folder)
  await homeOf(second)
  await stop(second)
  expect(await stagesIn(folder)).toEqual(STAGES)
}, 240_000)
