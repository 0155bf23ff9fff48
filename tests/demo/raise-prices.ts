import { readConfig } from '../../src/config.ts'
import type { Store } from '../../src/db/open.ts'
import type { Deps } from '../../src/deps.ts'
import { Arrivals } from '../../src/http/arrivals.ts'
import { setToday } from '../../src/rates/new-price.ts'
import { pricesOf } from '../../src/rates/pack-prices.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { keepStanding } from '../../src/rates/standing.ts'
import { testLoad } from '../helpers/load.ts'

/** Has everything that is bought cost a tenth more from now on; gives the number of the version that is in force then. */
export async function raiseEveryPrice(store: Store): Promise<number> {
  const deps = depsOf(store)
  const inForce = async () => (await findRateTable(deps.db, deps.now()))!
  const { body } = await inForce()
  for (const finish of body.finishes) {
    const dearer = pricesOf(finish, body.units).map(({ name, each }) => [
      name,
      (Number(each) * 1.1).toFixed(2),
    ])
    const said = { prices: Object.fromEntries(dearer), soldOut: false }
    await setToday(deps, 1, (await inForce()).version, finish.slug, said)
  }
  return (await inForce()).version
}

function depsOf(store: Store): Deps {
  const now = () => Temporal.Now.instant()
  return {
    config: readConfig({ LOG_LEVEL: 'silent' }),
    db: store.db,
    kind: store.kind,
    now,
    standing: keepStanding(store, now),
    secretKey: 'a key for tests only, 32 characters or more',
    assets: { addresses: {}, files: new Map() },
    jobs: { sendMail: async () => {}, sendText: async () => {} },
    load: testLoad(now),
    arrivals: new Arrivals(now),
    demo: true,
  }
}
