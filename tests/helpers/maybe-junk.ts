import { randomUUID } from 'node:crypto'
import { expect } from 'vitest'
import { pathOfLink } from '../../src/requests/links.ts'
import { sayJunk } from '../../src/requests/maybe-junk/decide.ts'
import { holdAsMaybeJunk } from '../../src/requests/maybe-junk/hold.ts'
import type { Sending } from '../../src/requests/quote-request.ts'
import type { TestApp } from './app.ts'
import { BEDS, sendForm } from './request-form.ts'
import { sending } from './requests.ts'

/** What is held whatever else is typed. */
export const JUNK = { keepEmpty: 'filled', note: 'See http://cheap.example' }
export const NO_BEDS = Object.fromEntries(Object.keys(BEDS).map(name => [name, '']))

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

/** Has one held whose sender was asked whether it was them; gives the path of the link for that. */
export async function askedHeld(app: TestApp, email = `${randomUUID()}@home.example`): Promise<string> {
  const { config } = app.deps
  app.deps.config = { ...config, smtpUrl: 'smtp://mail.example' }
  // Whatever was asked in this hour, or switched off, before.
  await app.db.deleteFrom('mail_hour').where('counted', '=', 'asked whether real').execute()
  await app.db.deleteFrom('message_choice').where('name', '=', 'was-it-you').execute()
  const { number } = await heldRequest(app, { email, phone: '' })
  app.deps.config = config
  const { nonce } = await app.db
    .selectFrom('maybe_junk')
    .select('nonce')
    .where('number', '=', number)
    .where('asked_hash', 'is not', null)
    .executeTakeFirstOrThrow()
  return pathOfLink(app.deps.secretKey, 'email address', nonce)
}

/** Posts the form so that it's held as maybe junk; gives its row, and the path of its own page. */
export async function sendJunk(app: TestApp, fields: Record<string, string>) {
  const { status, location } = await sendForm(app, fields)
  expect(status).toBe(303)
  const row = await app.db
    .selectFrom('maybe_junk')
    .selectAll()
    .orderBy('id', 'desc')
    .executeTakeFirstOrThrow()
  return { own: String(location), ...row }
}
