import { afterAll, beforeAll, expect, test } from 'vitest'
import { offerTimes, pickTime, TimeGone } from '../../src/visits/pick-time.ts'
import { findVisitAhead } from '../../src/visits/queries.ts'
import { setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { post, standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let ownerId: number

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  ;({ id: ownerId } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow())
})
afterAll(() => app.close())

// Monday, March 2, 2026, is today; in Chicago it is six hours before UTC.
const times = (day: string) => [`2026-03-${day}T15:00:00Z`, `2026-03-${day}T19:30:00Z`]
const instants = (day: string) => times(day).map(time => Temporal.Instant.from(time))
const startOf = async (id: number) => (await findVisitAhead(app.db, id))?.starts_at

test('two or three times are sent, and the homeowner picks one by the link', async () => {
  const { id, number, ownPath } = await sendRequest(app)
  const send = (list: string[]) =>
    owner.post(`/queue/${number}/visit/times`).type('form').send({ 'times[]': list })
  expect((await send(times('04').slice(1))).text).toContain('Check two or three times.')
  for (const odd of ['2026-02-20T15:00:00Z', '9999-12-31T23:59:00Z', 'tomorrow'])
    expect((await send([odd, ...times('04')])).text).toContain('still to come')
  for (const _ of ['once', 'again']) expect((await send(times('04'))).status).toBe(303)
  expect((await standing(app, id)).mails.filter(kind => kind === 'visit-times')).toHaveLength(1)
  expect((await app.browser().get(ownPath)).text).toContain('Pick a time for our visit')
  const page = (await app.browser().get(`${ownPath}/visit`)).text
  expect(page).toContain('Wed, Mar 4, 1:30 PM')

  const pick = (value: string) => post(app, `${ownPath}/visit`, { seen: '0', pick: value })
  expect((await pick('2026-03-04T16:00:00Z')).text).toContain('just been taken')
  expect((await pick('')).status).toBe(422)
  for (const _ of ['once', 'again']) expect((await pick(times('04')[1]!)).status).toBe(303)
  expect(await startOf(id)).toBe('2026-03-04T19:30:00Z')
  const { stage, verbs, mails } = await standing(app, id)
  expect([stage, verbs.at(-1)]).toEqual(['visit set', 'visit set'])
  expect(mails.filter(kind => kind === 'visit-staff' || kind === 'visit-set')).toHaveLength(2)
})

test('of two who pick the same time at once, one is told that it is gone', async () => {
  const [one, two] = [await sendRequest(app), await sendRequest(app)]
  for (const { id } of [one, two]) await offerTimes(app.deps, ownerId, id, instants('05'))
  const startsAt = instants('05')[0]!
  const picks = await Promise.allSettled(
    [one, two].map(({ id }) => pickTime(app.deps, id, { seen: 0, startsAt })),
  )
  expect(picks.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
  const refused = picks.find(({ status }) => status === 'rejected') as PromiseRejectedResult
  expect(refused.reason).toBeInstanceOf(TimeGone)
  const loser = picks[0]!.status === 'rejected' ? one : two
  const page = (await app.browser().get(`${loser.ownPath}/visit`)).text
  expect([page.includes(times('05')[0]!), page.includes(times('05')[1]!)]).toEqual([false, true])

  // The other one goes too: what is left is a call.
  const third = await sendRequest(app)
  await setVisit(app.deps, ownerId, third.id, instants('05')[1]!)
  const left = (await app.browser().get(`${loser.ownPath}/visit`)).text
  expect(left.match(/name="pick" value="[^"]+"/g)).toEqual(['name="pick" value="call"'])
  expect((await post(app, `${loser.ownPath}/visit`, { seen: '0', pick: 'call' })).status).toBe(303)
  expect((await app.browser().get(loser.ownPath)).text).not.toContain('Pick a time')
})

test('a visit is moved to a free time until the day before, canceled, or said not to suit', async () => {
  const { id, number, ownPath } = await sendRequest(app)
  await setVisit(app.deps, ownerId, id, Temporal.Instant.from('2026-03-03T15:00:00Z'))
  const seen = String((await findVisitAhead(app.db, id))!.id)
  const page = (await app.browser().get(`${ownPath}/visit`)).text
  const offered = /value="(2026-03-0[^"]+Z)"/.exec(page)![1]!
  const say = (pick: string, of = seen) => post(app, `${ownPath}/visit`, { seen: of, pick, words: 'At work' })
  expect((await say('2026-03-07T16:00:00Z')).text).toContain('just been taken')
  expect((await say(offered)).status).toBe(303)
  expect(await startOf(id)).toBe(offered)
  // The page that was open before shows a visit that is no longer set.
  expect((await say(times('06')[0]!)).text).toContain('has changed since')
  const now = String((await findVisitAhead(app.db, id))!.id)
  for (const _ of ['once', 'again']) expect((await say('call', now)).status).toBe(303)
  const row = await app.db.selectFrom('quote_request').select('step').where('id', '=', id).executeTakeFirst()
  expect(row?.step).toBe('Call')
  const shown = (await owner.get(`/queue/${number}`)).text
  expect(shown).toContain('time doesn’t suit them: At work')
  expect(shown).toContain('Move or cancel the visit')
  for (const _ of ['once', 'again']) expect((await say('off', now)).status).toBe(303)
  const stands = await standing(app, id)
  expect(stands.stage).toBe('new')
  expect(stands.verbs.filter(verb => verb === 'visit called off' || verb === 'time unsuited')).toHaveLength(2)
})

test('on the day itself it is too late to move it', async () => {
  const { id, ownPath } = await sendRequest(app)
  await setVisit(app.deps, ownerId, id, Temporal.Instant.from('2026-03-02T22:00:00Z'))
  const page = (await app.browser().get(`${ownPath}/visit`)).text
  expect(page).toContain('too close to the visit')
  expect(page).not.toMatch(/value="2026-/)
  const { id: seen } = (await findVisitAhead(app.db, id))!
  await expect(
    pickTime(app.deps, id, { seen, startsAt: Temporal.Instant.from('2026-03-10T15:00:00Z') }),
  ).rejects.toThrow('visits.too-late')
})

test('the staff are told of a clash before anything is saved, and may set it anyway', async () => {
  const [first, second] = [await sendRequest(app), await sendRequest(app)]
  const set = (number: string, fields: Record<string, string>) =>
    owner.post(`/queue/${number}/visit`).type('form').send(fields)
  expect((await set(first.number, { 'visit.free': '2026-03-11T15:00:00Z' })).status).toBe(303)
  const typed = { 'visit.date': '2026-03-11', 'visit.time': '9:30' }
  const told = await set(second.number, typed)
  expect(told.status).toBe(422)
  expect(told.text).toContain(`It overlaps the visit to Carol Reyes (${first.number})`)
  expect(await startOf(second.id)).toBeUndefined()
  expect((await set(second.number, { ...typed, 'visit.anyway': 'yes' })).status).toBe(303)
  expect(await startOf(second.id)).toBe('2026-03-11T14:30:00Z')
})

test('how long a visit takes, and when, is the owner’s to say; old ones keep theirs', async () => {
  const { id } = await sendRequest(app)
  await setVisit(app.deps, ownerId, id, Temporal.Instant.from('2026-03-12T15:00:00Z'))
  const save = (fields: Record<string, string>) =>
    owner
      .post('/settings/days')
      .type('form')
      .send({
        dayChoice: 'day',
        noticeDays: '1',
        sayDayBefore: '3',
        moveUntilDays: '3',
        visitMinutes: '60',
        visitFromHour: '8',
        visitToHour: '18',
        ...fields,
      })
  expect((await save({ visitFromHour: '12', visitToHour: '12' })).text).toContain('No visit fits')
  expect((await save({ visitMinutes: '9' })).status).toBe(422)
  expect((await save({ visitMinutes: '30', visitFromHour: '10' })).status).toBe(303)
  expect((await findVisitAhead(app.db, id))?.minutes).toBe(60)
  const { number } = await sendRequest(app)
  expect((await owner.get(`/queue/${number}`)).text).not.toMatch(/, 9:\d\d AM<\/option>/)
  await save({})
})
