import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { type Budgets, BudgetsHere, DAY, HOUR, MINUTES } from '../../src/junk/budgets.ts'
import { JunkWatch } from '../../src/junk/watch.ts'
import { StoredBudgets, sweepBudgets } from '../../src/requests/maybe-junk/budgets.ts'
import { testStore } from '../helpers/store.ts'

const START = Temporal.Instant.from('2026-03-02T15:00:00Z')
const KEY = 'a key for tests only, 32 characters or more'

let store: Awaited<ReturnType<typeof testStore>>
beforeAll(async () => {
  store = await testStore()
})
afterAll(() => store.close())
beforeEach(async () => {
  await store.db.deleteFrom('requests_counted').execute()
})

const stored = () => new StoredBudgets(store.db, KEY)
const rows = () => store.db.selectFrom('requests_counted').selectAll().execute()

const arriving = (address: string, name: string) => ({
  submission: `${address} ${name}`,
  address,
  words: { name, street: '12 Elm Street', preferredTimes: '', gate: '', dog: '', note: '' },
  ...{ phone: '', email: '', hiddenBox: '', seconds: 40 },
})

test('two processes count together what comes from one address', async () => {
  const [one, other, alone] = [stored(), stored(), new BudgetsHere()].map(
    budgets => new JunkWatch(() => START, { budgets }),
  )
  const weighed = []
  for (let nth = 0; nth < 18; nth++) {
    const sent = arriving('192.0.2.7', `Carol Reyes ${nth}`)
    weighed.push((await (nth % 2 === 0 ? one : other)!.weigh(sent)).held)
    if (nth % 2 === 0) await alone!.weigh(sent)
  }
  // Of fifteen within ten minutes from one address and its network: 4, 5 and 3 points. Of nine, 2 and 4.
  expect(weighed).toEqual([...Array(15).fill(false), true, true, true])
  expect((await alone!.weigh(arriving('192.0.2.7', 'Carol Reyes'))).held).toBe(false)
})

test('it counts as a process by itself does, through all windows', async () => {
  const both: Budgets[] = [stored(), new BudgetsHere()]
  const steps = [0, 1, MINUTES / 2, MINUTES, HOUR - 1, HOUR, HOUR * 1.5, HOUR * 2.2, DAY, DAY * 1.5, DAY * 4]
  let came = 0
  for (const step of steps) {
    const at = START.epochMilliseconds + step
    for (const address of ['192.0.2.7', '192.0.2.8', '203.0.113.9']) {
      const network = address.replace(/\d+$/, '0/24')
      const [here, alone] = await Promise.all(both.map(one => one.before(address, network, at)))
      expect(here, `after ${step} ms`).toEqual(alone)
      came += here!.day
      for (const one of both) await one.add(address, address === '192.0.2.8' ? null : network, at)
    }
  }
  expect(came).toBeGreaterThan(0)
})

test('what is stored tells no address, and goes when it counts no more, or is too many', async () => {
  await stored().add('192.0.2.7', '192.0.2.0/24', START.epochMilliseconds)
  const kept = await rows()
  expect(kept).toHaveLength(4)
  expect(JSON.stringify(kept)).not.toContain('192.0.2')
  await sweepBudgets(store.db, START.add({ milliseconds: HOUR * 2 }))
  expect(await rows()).toHaveLength(3)
  await sweepBudgets(store.db, START.add({ milliseconds: DAY * 2 + 1 }))
  expect(await rows()).toEqual([])
  for (let n = 0; n < 6; n++) await stored().add(`198.18.0.${n}`, null, START.epochMilliseconds + n)
  await sweepBudgets(store.db, START, 4)
  expect(await rows()).toHaveLength(4)
  expect(await stored().before('198.18.0.5', '', START.epochMilliseconds + 6)).toMatchObject({ address: 1 })
  expect(await stored().before('198.18.0.0', '', START.epochMilliseconds + 6)).toMatchObject({ address: 0 })
})
