import { sayJunk } from '../../src/requests/maybe-junk/decide.ts'
import { holdAsMaybeJunk } from '../../src/requests/maybe-junk/hold.ts'
import type { Sending } from '../../src/requests/quote-request.ts'
import type { TestApp } from './app.ts'
import { sending } from './requests.ts'

const REASONS = [
  { points: 10, words: 'A box that people don’t see was filled in' },
  { points: 2, words: '1 link in the note' },
]

/** Has a request without beds held as maybe junk; `isJunk` says that it is. */
export async function heldRequest(app: TestApp, instead: Partial<Sending> = {}, isJunk = false) {
  const told = { beds: [], extras: [], postcode: '' }
  const sent = sending({ told, sentAs: 'look', note: 'See http://cheap.example', ...instead })
  const held = await holdAsMaybeJunk(app.deps, sent, null, { points: 12, reasons: REASONS })
  if (isJunk) await sayJunk(app.deps, held.number)
  return held
}
