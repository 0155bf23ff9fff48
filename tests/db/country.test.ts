import { expect, test } from 'vitest'
import { migrations } from '../../migrations/list.ts'
import { migrate } from '../../src/db/migrate.ts'
import { unmigratedStore } from '../helpers/store.ts'

const COUNTRY = '2026-11-26-5-country'
const before = Object.fromEntries(Object.entries(migrations).filter(([name]) => name < COUNTRY))

test.each([
  ['us', 'US'],
  ['metric', 'ZZ'],
])(
  'a business with %s units from before there were countries gets %s, and nothing else changes',
  async (units, country) => {
    const store = await unmigratedStore()
    try {
      await migrate(store, before)
      await store.executeSql(`insert into business
      values (true, 'Fern Beds', '', '', '${units}', 'EUR', 'UTC', 8, 30, 2, '{1,2}')`)
      const number = 'select number from standing_number'
      const { rows } = await store.executeSql(number)
      await migrate(store, { ...before, [COUNTRY]: migrations[COUNTRY]! })
      const business = await store.executeSql('select name, units, country from business')
      expect(business.rows).toEqual([{ name: 'Fern Beds', units, country }])
      expect((await store.executeSql(number)).rows).toEqual(rows)
      await expect(store.executeSql(`update business set country = 'Spain'`)).rejects.toThrow('check')
    } finally {
      await store.close()
    }
  },
)
