import { afterAll, beforeAll, expect, test } from 'vitest'
import { readConfig } from '../../src/config.ts'
import { openInMemory } from '../../src/db/embedded.ts'
import { migrate } from '../../src/db/migrate.ts'
import { embeddedStore, type Store } from '../../src/db/open.ts'
import { type DemoClock, fillDemo } from '../../src/demo/fill.ts'
import type { Deps } from '../../src/deps.ts'
import { setToday } from '../../src/rates/new-price.ts'
import { pricesOf } from '../../src/rates/pack-prices.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { keepStanding } from '../../src/rates/standing.ts'
import { testLoad } from '../helpers/load.ts'
import { ballparksAgain, quotesAgain } from '../helpers/worked-out-again.ts'

let store: Store
let deps: Deps

beforeAll(async () => {
  store = embeddedStore(await openInMemory())
  await migrate(store)
  const clock: DemoClock = { at: null }
  const now = () => clock.at ?? Temporal.Instant.from('2026-11-25T15:00:00Z')
  deps = {
    config: readConfig({ LOG_LEVEL: 'silent' }),
    db: store.db,
    kind: 'embedded',
    now,
    standing: keepStanding(store, now),
    secretKey: 'a key for tests only, 32 characters or more',
    assets: { addresses: {}, files: new Map() },
    jobs: { sendMail: async () => {}, sendText: async () => {} },
    load: testLoad(now),
    demo: true,
  }
  await fillDemo(deps, clock, () => {})
}, 180_000)
afterAll(() => store.close())

/** Everything that is bought costs a tenth more from now on. */
async function raiseEveryPrice(): Promise<void> {
  const { body } = (await findRateTable(deps.db, deps.now()))!
  for (const finish of body.finishes) {
    const { version } = (await findRateTable(deps.db, deps.now()))!
    const dearer = pricesOf(finish, body.units).map(({ name, each }) => [
      name,
      (Number(each) * 1.1).toFixed(2),
    ])
    const said = { prices: Object.fromEntries(dearer), soldOut: false }
    await setToday(deps, 1, version, finish.slug, said)
  }
}

test('what the demonstration stored comes out the same to the cent after later versions', async () => {
  await raiseEveryPrice()
  const { version } = (await findRateTable(deps.db, deps.now()))!
  expect(version).toBe(7)
  const [ballparks, quotes] = [await ballparksAgain(deps.db), await quotesAgain(deps.db)]
  expect([ballparks.length, quotes.length]).toEqual([24, 9])
  for (const { of, stored, again } of [...ballparks, ...quotes]) expect([of, again]).toEqual([of, stored])
})
