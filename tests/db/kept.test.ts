import { sql, type Transaction } from 'kysely'
import { afterEach, beforeEach, expect, inject, test } from 'vitest'
import { Kept } from '../../src/db/kept.ts'
import type { Store } from '../../src/db/open.ts'
import type { Database } from '../../src/db/schema.ts'
import { testStore } from '../helpers/store.ts'
import { until } from '../helpers/until.ts'

let store: Store
beforeEach(async () => {
  store = await testStore()
  await store.executeSql(`insert into business
    values (true, 'Fern Beds', '', '', 'us', 'USD', 'UTC', 8, 30, 2, '{1,2}', 'US')`)
})
afterEach(() => store.close())

type Named = { name: string }
const named = (trx: Transaction<Database>) =>
  trx.selectFrom('business').select('name').executeTakeFirstOrThrow()
const rename = (name: string) => store.db.updateTable('business').set({ name }).execute()
/** As another process does it, which this one's count knows nothing of. */
const renameElsewhere = (name: string) => store.executeSql(`update business set name = '${name}'`)

/** Has the next question fail, and makes this process have to ask it. */
async function away() {
  await store.executeSql('alter table standing_number rename to standing_number_away')
  await store.db.insertInto('request_year').values({ year: 2026, last: 1 }).execute()
}
const back = () => store.executeSql('alter table standing_number_away rename to standing_number')

/** Keeps the name, and counts how often it is read from its row. */
function keepName(read: (trx: Transaction<Database>) => Promise<Named> = named) {
  const seen = { times: 0, holds: true }
  const kept = new Kept<Named>(store, {
    read: trx => {
      seen.times++
      return read(trx)
    },
    holds: () => seen.holds,
  })
  return { kept, seen }
}

test('what is kept is one object, read once, however many ask and whatever else is written', async () => {
  const { kept, seen } = keepName()
  expect(kept.last()).toBeUndefined()
  const [first, second] = await Promise.all([kept.read(), kept.read()])
  await store.db.insertInto('request_year').values({ year: 2026, last: 1 }).execute()
  const [third, fourth] = await Promise.all([kept.read(), kept.read()])
  expect(first).toEqual({ name: 'Fern Beds' })
  for (const other of [second, third, fourth, kept.last()]) expect(other).toBe(first)
  expect(seen.times).toBe(1)
})

test('what this process wrote is there at once, and what it took back never was', async () => {
  const { kept, seen } = keepName()
  await kept.read()
  await rename('Moss Beds')
  expect(await kept.read()).toEqual({ name: 'Moss Beds' })
  const broken = store.db.transaction().execute(async trx => {
    await trx.updateTable('business').set({ name: 'Never Beds' }).execute()
    throw new Error('enough')
  })
  await expect(broken).rejects.toThrow('enough')
  expect(await kept.read()).toEqual({ name: 'Moss Beds' })
  await store.db
    .transaction()
    .execute(trx => trx.updateTable('business').set({ name: 'Sage Beds' }).execute())
  expect(await kept.read()).toEqual({ name: 'Sage Beds' })
  expect(seen.times).toBe(3)
})

test('what another process wrote is there once somebody has looked', async () => {
  const { kept } = keepName()
  await kept.read()
  await renameElsewhere('Moss Beds')
  expect(await kept.read()).toEqual({ name: 'Fern Beds' })
  await kept.look()
  expect(await kept.read()).toEqual({ name: 'Moss Beds' })
})

test('what no longer holds is read again, though nothing was written', async () => {
  const { kept, seen } = keepName()
  const first = await kept.read()
  seen.holds = false
  const again = kept.read()
  seen.holds = true
  expect(await again).toEqual(first)
  expect(await again).not.toBe(first)
  expect(await kept.read()).toBe(await again)
  expect(seen.times).toBe(2)
})

test('while the database doesn’t answer it is what was known last, and that is reported once', async () => {
  const { kept } = keepName()
  const faults: unknown[] = []
  kept.reportTo(fault => faults.push(fault))
  await kept.read()
  await away()
  for (const _time of [1, 2, 3]) expect(await kept.read()).toEqual({ name: 'Fern Beds' })
  await expect(kept.look()).rejects.toMatchObject({ code: '42P01' })
  expect(faults).toEqual([expect.objectContaining({ code: '42P01' })])
  await back()
  await renameElsewhere('Moss Beds')
  await until(async () => (await kept.read()).name === 'Moss Beds', { what: 'the new name' })
})

test('what is written as soon as the database answers again is there at once', async () => {
  const { kept } = keepName()
  await kept.read()
  await away()
  expect(await kept.read()).toEqual({ name: 'Fern Beds' })
  await back()
  await rename('Moss Beds')
  expect(await kept.read()).toEqual({ name: 'Moss Beds' })
})

test('with nothing known yet, the fault is the asker’s', async () => {
  const { kept } = keepName()
  await away()
  await expect(kept.read()).rejects.toMatchObject({ code: '42P01' })
  expect(kept.last()).toBeUndefined()
  await back()
  expect(await kept.read()).toEqual({ name: 'Fern Beds' })
})

// On the embedded store a reading and a change can't be under way at the same time.
if (inject('storeKind') === 'postgres') {
  /** Keeps the name by a reading that stops half way, the first time, until it is let go on. */
  function stopping(before: boolean) {
    const reached = Promise.withResolvers<void>()
    const goOn = Promise.withResolvers<void>()
    let first = true
    const stop = async () => {
      if (!first) return
      first = false
      reached.resolve()
      await goOn.promise
    }
    const { kept } = keepName(async trx => {
      if (before) await stop()
      const row = await named(trx)
      if (!before) await stop()
      return row
    })
    return { kept, reached: reached.promise, goOn: goOn.resolve }
  }

  test('a reading that was overtaken is neither shared with who comes later nor kept', async () => {
    const { kept, reached, goOn } = stopping(false)
    const overtaken = kept.read()
    await reached
    await rename('Moss Beds')
    expect(await kept.read()).toEqual({ name: 'Moss Beds' })
    goOn()
    expect(await overtaken).toEqual({ name: 'Fern Beds' })
    expect(kept.last()).toEqual({ name: 'Moss Beds' })
    expect(await kept.read()).toEqual({ name: 'Moss Beds' })
  })

  test.each([true, false])(
    'a change in the middle of a reading isn’t missed (before the row is read: %s)',
    async before => {
      const { kept, reached, goOn } = stopping(before)
      const reading = kept.read()
      await reached
      await renameElsewhere('Moss Beds')
      goOn()
      await reading
      await kept.look()
      expect(await kept.read()).toEqual({ name: 'Moss Beds' })
    },
  )

  test('who comes while the database is known to be away doesn’t wait for it', async () => {
    const { kept } = keepName()
    await kept.read()
    await away()
    await kept.read()
    await back()
    await store.db.transaction().execute(async trx => {
      await sql`lock table standing_number`.execute(trx)
      const answered = kept.look().then(() => 'an answer')
      expect(await Promise.race([kept.read(), answered])).toEqual({ name: 'Fern Beds' })
    })
  })
}
