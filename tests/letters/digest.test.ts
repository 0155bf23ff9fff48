import { afterAll, beforeAll, expect, test } from 'vitest'
import { deliver } from '../../src/letters/deliver.ts'
import { writeReminders } from '../../src/letters/reminders.ts'
import type { Mailer } from '../../src/letters/smtp.ts'
import { messages } from '../../src/messages.ts'
import { addNote } from '../../src/requests/changed-by-homeowner.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

const PAGE = '/settings/messages'
let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

/** The form of the messages, as the page has it at first, with something else in it. */
function choices(instead: Record<string, string> = {}): Record<string, string> {
  const on = [
    'received',
    'was-it-you',
    'visit',
    'visit-tomorrow',
    'price',
    'asked',
    'week',
    'booked',
    'moved',
    'rain',
    'work-tomorrow',
    'deposit',
    'bill',
    'payment',
    'check-returned',
    'given-back',
    'canceled',
    'turned-down',
  ]
  const staff = ['new', 'held', 'note', 'accepted', 'moved', 'declined', 'canceled']
  return {
    ...Object.fromEntries(on.map(name => [`homeowner.${name}`, 'yes'])),
    ...Object.fromEntries(staff.map(name => [`staff.staff-${name}`, 'on'])),
    'days.follow-up': '4',
    'days.expiring': '3',
    ...instead,
  }
}

const save = (form: Record<string, string>) => owner.post(`${PAGE}/choices`).type('form').send(form)

test('what is chosen is kept and shown again; days that can’t be are refused beside their field', async () => {
  const { text } = await owner.get(PAGE)
  const ticked = [...text.matchAll(/name="homeowner\.([\w-]+)" value="yes" checked/g)].map(([, name]) => name)
  expect(ticked).toEqual(
    Object.keys(choices()).flatMap(name => (name.startsWith('homeowner.') ? [name.slice(10)] : [])),
  )
  const refused = await save(choices({ 'days.expiring': '0', 'homeowner.follow-up': 'yes' }))
  expect(refused.status).toBe(422)
  expect(refused.text).toContain('Give the days, from 1 to 60.')
  expect(refused.text).toMatch(/name="homeowner\.follow-up" value="yes" checked/)
  expect((await save(choices({ 'homeowner.follow-up': 'yes', 'days.follow-up': '7' }))).status).toBe(303)
  const kept = await owner.get(PAGE)
  expect(kept.text).toMatch(/name="homeowner\.follow-up" value="yes" checked/)
  expect(kept.text).toMatch(/name="days\.follow-up"[^>]*value="7"/)
})

test('once a day, at seven there, all of it in one mail, and what it tells counts as sent', async () => {
  await save(
    choices({ 'staff.staff-new': 'daily', 'staff.staff-note': 'daily', 'staff.staff-declined': 'off' }),
  )
  app.queued.length = 0
  const [one, two] = [
    await sendRequest(app, { email: '', phone: '' }),
    await sendRequest(app, { email: '', phone: '' }),
  ]
  app.setClock('2026-03-02T15:01:00Z')
  await addNote(app.deps, one.id, 'Mind the gate')
  expect(app.queued).toEqual([])
  // Seven in the morning in Chicago is 13:00 UTC before March 8, 2026.
  app.setClock('2026-03-03T12:59:00Z')
  await writeReminders(app.deps)
  expect(app.queued).toEqual([])
  app.setClock('2026-03-03T13:00:00Z')
  await Promise.all([writeReminders(app.deps), writeReminders(app.deps)])
  expect(app.queued).toHaveLength(1)
  const mails: string[] = []
  const mailer: Mailer = {
    send: async ({ subject, text }) => void mails.push(`${subject}\n${text}`),
    close: () => {},
  }
  expect(await deliver({ ...app.deps, messages }, mailer, app.queued[0]!)).toBe('done')
  expect(mails[0]).toContain('News about 2 requests')
  expect(mails[0]).toContain(`${one.number}: New request, A note`)
  expect(mails[0]).toContain(`${two.number}: New request`)
  expect(mails[0]).not.toMatch(/Carol|gate/)
  const unsent = await app.db
    .selectFrom('outbox')
    .select('kind')
    .where('recipient', '=', 'owner')
    .where('sent_at', 'is', null)
    .execute()
  expect(unsent).toEqual([])
  await sendRequest(app, { email: '', phone: '' })
  app.setClock('2026-03-03T20:00:00Z')
  await writeReminders(app.deps)
  expect(app.queued).toHaveLength(1)
  app.setClock('2026-03-04T13:00:00Z')
  await writeReminders(app.deps)
  expect(app.queued).toHaveLength(2)
})
