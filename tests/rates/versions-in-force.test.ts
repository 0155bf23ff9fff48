import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { json } from '../../src/db/json.ts'
import { findRateTable, nextVersionNumber } from '../../src/rates/queries.ts'
import { callOffVersion } from '../../src/rates/versions/call-off.ts'
import { findVersions } from '../../src/rates/versions/queries.ts'
import { standingOf } from '../../src/rates/versions/words.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'

const SEED = 20_260_309
const ZONE = 'America/Chicago'
const DEEDS = 60

let app: TestApp
let account: number
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  account = (await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()).id
})
afterAll(() => app.close())

type Deed = { hours: number } & ({ kind: 'at once' } | { kind: 'from'; days: number } | { kind: 'call off' })

const anyDeed: fc.Arbitrary<Deed> = fc.record({ hours: fc.integer({ min: 1, max: 40 }) }).chain(({ hours }) =>
  fc.oneof(
    fc.constant({ hours, kind: 'at once' as const }),
    fc.record({
      hours: fc.constant(hours),
      kind: fc.constant('from' as const),
      days: fc.integer({ min: 1, max: 12 }),
    }),
    fc.constant({ hours, kind: 'call off' as const }),
  ),
)

async function make(inForceFrom: string | null): Promise<void> {
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  const version = await nextVersionNumber(app.db)
  const made = { made_at: app.deps.now().toString(), made_by: account, in_force_from: inForceFrom }
  await app.db
    .insertInto('rate_table')
    .values({ version, body: json(body), ...made })
    .execute()
}

/** The rows of the list that say of themselves that they are in force at a moment. */
async function saidInForce(at: Temporal.Instant): Promise<number[]> {
  const rows = await findVersions(app.db, 1000)
  return rows.filter(row => /^in force since/.test(standingOf(row, at, ZONE).words)).map(row => row.version)
}

test('at any moment the list says of one version that it is in force: the one that is', async () => {
  const deeds = fc.sample(anyDeed, { seed: SEED, numRuns: DEEDS })
  let called = 0
  let now = app.deps.now()
  for (const deed of deeds) {
    now = now.add({ hours: deed.hours })
    app.setClock(now.toString())
    if (deed.kind === 'at once') await make(null)
    else if (deed.kind === 'from') await make(now.add({ hours: deed.days * 24 }).toString())
    else {
      const waiting = (await findVersions(app.db, 1000)).filter(row => standingOf(row, now, ZONE).waits)
      const off = waiting[deed.hours % Math.max(waiting.length, 1)]
      if (off && (await callOffVersion(app.deps, account, off.version))) called++
    }
    for (const ahead of [0, 23, 24, 25, 71, 200, 400]) {
      const at = now.add({ hours: ahead })
      expect([deed.kind, ahead, await saidInForce(at)]).toEqual([
        deed.kind,
        ahead,
        [(await findRateTable(app.db, at))!.version],
      ])
    }
  }
  expect(called).toBeGreaterThan(3)
})
