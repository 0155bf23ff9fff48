import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { AtStore, Command } from '../../src/command/command.ts'
import { doctor } from '../../src/command/doctor.ts'
import { keyCheck } from '../../src/command/key-check.ts'
import { testMail } from '../../src/command/test-mail.ts'
import { requireStoresKey } from '../../src/key-check.ts'
import { typed } from '../command/typed/typing.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { startMailServer } from '../helpers/mail-server.ts'
import { openBusiness, SET_UP_FIELDS } from '../helpers/people.ts'
import { noStoreYet } from '../helpers/process.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

async function run(command: Command, input: Record<string, string> = {}, changed: Partial<AtStore> = {}) {
  const { config, store, now, secretKey } = { ...app.deps, store: app.store }
  let said = ''
  for await (const piece of command.atStore!({ config, store, now, secretKey, ...changed }, input))
    said += piece
  return said
}

test('the doctor fails when something is wrong, and says what to do', async () => {
  await requireStoresKey(app.db, app.deps.secretKey)
  const well = { now: Temporal.Now.instant, config: { ...app.deps.config, secretKey: app.deps.secretKey } }
  expect(await run(doctor, {}, well)).toMatch(/^good {3}Key: /m)
  const said: string[] = []
  const wrong = { ...well, secretKey: 'another key, of 32 characters or more' }
  const failing = async () => {
    for await (const piece of doctor.atStore!({ ...wrong, store: app.store }, {})) said.push(String(piece))
  }
  await expect(failing()).rejects.toThrow('1 thing is wrong.')
  expect(said.join('')).toMatch(/^WRONG {2}Key: .*\n {7}Put the right key back/m)
})

test('the key is known, or is another, or isn’t there', async () => {
  await requireStoresKey(app.db, app.deps.secretKey)
  expect(await run(keyCheck)).toContain('This is the key')
  await expect(run(keyCheck, {}, { secretKey: 'another key, of 32 characters or more' })).rejects.toThrow(
    'isn’t the key',
  )
  await expect(run(keyCheck, {}, { secretKey: null })).rejects.toThrow('There’s no key here')
})

test('one email goes out from the business, or why it doesn’t is said', async () => {
  const refusal = { code: 550, words: 'not you' }
  const server = await startMailServer(to => (to.startsWith('no') ? refusal : null))
  const config = { ...app.deps.config, smtpUrl: server.url }
  try {
    expect(await run(testMail, { to: 'reed@example.com' }, { config })).toContain('took it')
    const [letter] = server.letters
    expect(letter!.subject).toBe('Test from Bedwright')
    expect(letter!.from!.value[0]!.name).toBe(SET_UP_FIELDS['business.name'])
    await expect(run(testMail, { to: 'nobody@example.com' }, { config })).rejects.toThrow(
      '(stopped: EENVELOPE 550)',
    )
    await expect(run(testMail, { to: 'reed@example.com' })).rejects.toThrow('SMTP_URL isn’t set')
  } finally {
    await server.stop()
  }
  const strange = await typed('test-mail reed', await noStoreYet())
  expect(strange).toEqual(expect.objectContaining({ code: 1, aside: '"reed" isn’t an email address.\n' }))
})

test('the settings for metrics are shown, but not the token', async () => {
  const file = join((await noStoreYet()).DATA_DIR!, 'token')
  writeFileSync(file, 'marked token of the tests')
  const { code, said } = await typed('settings', { METRICS_PORT: '9100', METRICS_TOKEN_FILE: file })
  expect(code).toBe(0)
  expect(said).toMatch(/^METRICS_PORT +9100 /m)
  expect(said).not.toContain('marked')
})
