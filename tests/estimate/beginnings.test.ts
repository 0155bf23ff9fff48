import { expect, test } from 'vitest'
import { extraStart, finishStart } from '../../src/estimate/table/complete-table.ts'
import { extra } from '../../src/estimate/table/extra.ts'
import { finish } from '../../src/estimate/table/finish.ts'
import { partAt, stepsOf } from '../../src/estimate/table/rows.ts'

test.each([
  ['finish', finish, finishStart, ['slug', 'name', 'depth', 'hatch', 'swatch', 'rates']],
  ['extra', extra, extraStart, ['slug', 'name', 'lower', 'upper']],
])(
  'what every %s begins with is all but what its type says is missing, and sound',
  (_, whole, start, none) => {
    const keys = stepsOf(whole).map(([step]) => step)
    expect(Object.keys(start).sort()).toEqual(keys.filter(key => !none.includes(key)).sort())
    for (const [key, value] of Object.entries(start))
      expect([key, partAt(whole, key).safeParse(value).success]).toEqual([key, true])
  },
)
