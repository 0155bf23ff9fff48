import { expect, test } from 'vitest'
import { afterWaiting } from '../../src/quotes/conditions.ts'

const conditions = { deposit: null, notice: null, waits: true }

// Counted by hand: Sundays and the holidays of the country aren't, Saturdays are.
test.each([
  ['Good Friday and Easter Monday in Britain', 'GB', '2026-04-02', '2026-04-09'],
  ['neither in the United States', 'US', '2026-04-02', '2026-04-07'],
  ['Thanksgiving in the United States', 'US', '2026-11-25', '2026-12-01'],
  ['and not in Britain', 'GB', '2026-11-25', '2026-11-29'],
  ['Sundays alone where no holidays are known', 'ZZ', '2026-04-02', '2026-04-07'],
])('work waits over %s', (_what, country, accepted, begins) => {
  const quote = { conditions, accepted_at: `${accepted}T12:00:00Z` }
  const business = { time_zone: 'UTC', country }
  expect(afterWaiting('2026-01-01', business, quote, Temporal.Instant.from('2026-01-01T00:00:00Z'))).toBe(
    begins,
  )
})
