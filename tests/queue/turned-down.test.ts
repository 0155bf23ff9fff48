import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { declineQuote } from '../../src/bookings/not-this-time.ts'
import { type Letter, writeLetter } from '../../src/letters/letter.ts'
import { messages } from '../../src/messages.ts'
import type { MessageKind } from '../../src/outbox/kinds.ts'
import { findOutboxMessage, markSent } from '../../src/outbox/queries.ts'
import { confirmAddress } from '../../src/requests/confirm-address.ts'
import { keepMeasurements, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest, standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { givePhoto, sendUnseen } from '../helpers/photos.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let ownerId: number

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  ownerId = (await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()).id
})
afterAll(() => app.close())

function post(number: string, action: string, fields: Record<string, string> = {}) {
  return owner.post(`/queue/${number}/${action}`).type('form').send(fields)
}

async function letterOf(requestId: number, kind: MessageKind): Promise<Letter | null> {
  return writeLetter(
    { ...app.deps, messages },
    (await findOutboxMessage(app.db, await idOf(requestId, kind)))!,
  )
}

async function idOf(requestId: number, kind: MessageKind): Promise<string> {
  const { id } = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', requestId)
    .where('kind', '=', kind)
    .executeTakeFirstOrThrow()
  return id
}

async function measured(instead = {}, photo?: string) {
  const { id, number } = await sendRequest(app, instead)
  if (photo) await givePhoto(app, id, photo)
  await setVisit(app.deps, ownerId, id, app.deps.now().add({ hours: 48 }))
  const beds = told({ ...bedTold(), sizes: { length: '27 ft', width: '12 ft' }, toldBed: 0 })
  await keepMeasurements(app.deps, ownerId, id, beds)
  return { id, number }
}

describe('turning down', () => {
  it('tells the homeowner why, by mail and on their page, in their language', async () => {
    const { id, number, ownPath } = await sendRequest(app, { language: 'es' })
    await post(number, 'cannot-do', { reason: 'full', words: 'Call us in May' }).expect(303)
    await post(number, 'cannot-do', { reason: 'far', words: '' }).expect(303)
    const page = await app.browser().get(`${ownPath}?language=es`)
    expect(page.text).toContain('no podemos hacer este trabajo')
    expect(page.text).toContain('Ya tenemos toda la temporada ocupada. Call us in May')
    const { mails } = await standing(app, id)
    expect(mails.filter(kind => kind === 'turned-down')).toHaveLength(1)
    const unconfirmed = await letterOf(id, 'turned-down')
    expect(unconfirmed!.text).toContain('Ya tenemos toda la temporada ocupada.')
    // The address may be anybody's, and the words may say whose.
    expect(unconfirmed!.text).not.toContain('May')
    await confirmAddress(app.deps, id)
    expect((await letterOf(id, 'turned-down'))!.text).toContain('Call us in May')
  })

  it('is taken back to where it was; only whoever was told of it hears of that', async () => {
    const { id, number } = await measured()
    await post(number, 'take-back').expect(409)
    await post(number, 'cannot-do', { reason: 'kind', words: '' }).expect(303)
    await post(number, 'take-back').expect(303)
    await post(number, 'take-back').expect(303)
    const { stage, verbs } = await standing(app, id)
    expect(stage).toBe('measured')
    expect(verbs.slice(-2)).toEqual(["can't do", 'taken back'])
    expect(await letterOf(id, 'turned-down')).toBeNull()
    expect(await letterOf(id, 'taken-back')).toBeNull()
    await markSent(app.db, await idOf(id, 'turned-down'), app.deps.now())
    expect((await letterOf(id, 'taken-back'))!.text).toContain('Now we can.')
  })
})

describe('taking up again', () => {
  it('makes one new request with the beds, however often and at once it is asked', async () => {
    const { id, number } = await measured({ name: 'Aga Again', note: 'By the porch' }, 'the gate')
    await post(number, 'cannot-do', { reason: 'full', words: '' }).expect(303)
    const answers = await Promise.all([1, 2, 3].map(() => post(number, 'again')))
    const [first, ...others] = answers.map(({ headers }) => headers.location as string)
    expect(first).toMatch(/^\/queue\/26-\d{4}$/)
    expect(first).not.toBe(`/queue/${number}`)
    expect(others).toEqual([first, first])
    const both = await app.db
      .selectFrom('quote_request')
      .selectAll()
      .where(eb => eb.or([eb('id', '=', id), eb('taken_up_from', '=', id)]))
      .orderBy('id')
      .execute()
    const [old, made] = both as [(typeof both)[0], (typeof both)[0]]
    expect(both).toHaveLength(2)
    expect(old.stage).toBe("can't do")
    const { customer_id, place_id, told, measured: beds, note } = old
    expect(made).toMatchObject({ stage: 'measured', customer_id, place_id, told, measured: beds, note })
    expect((await owner.get(first!).expect(200)).text).toContain(`Taken up again from request ${number}`)
    expect((await owner.get(`/queue/${number}`)).text).toContain(`href="${first}"`)
    const bedsOf = (of: number) =>
      app.db.selectFrom('request_bed').select('bed_id').where('quote_request_id', '=', of).execute()
    expect(await bedsOf(made.id)).toEqual(await bedsOf(id))
    expect(await bedsOf(id)).toHaveLength(1)
    const photos = await app.db
      .selectFrom('request_photo')
      .select(['quote_request_id', 'place', 'words', 'bytes'])
      .where('quote_request_id', 'in', [id, made.id])
      .orderBy('id')
      .execute()
    expect(photos.map(({ quote_request_id }) => quote_request_id)).toEqual([id, made.id])
    expect({ ...photos[1], quote_request_id: id }).toEqual(photos[0])
    // Worked out anew, and so there is a page for the homeowner.
    const ranges = await app.db
      .selectFrom('ballpark')
      .select(['low', 'high'])
      .where('quote_request_id', 'in', [id, made.id])
      .execute()
    expect(ranges[1]).toEqual(ranges[0])
  })

  it('of one that has photos only says so in the list', async () => {
    const { id, number } = await sendUnseen(app, { name: 'Pia Photos', sentAs: 'photos' })
    await givePhoto(app, id)
    expect((await owner.get(`/queue?q=${number}`)).text).toContain('photos only')
    const looked = await sendUnseen(app, { name: 'Lou Look' })
    expect((await owner.get(`/queue?q=${looked.number}`)).text).not.toContain('photos only')
  })

  it('begins with a call where nothing was measured, and is refused while the request is open', async () => {
    const { id, number } = await quotedRequest(app)
    await post(number, 'again').expect(409)
    await declineQuote(app.deps, id, { reason: 'price', words: '' })
    const { headers } = await post(number, 'again').expect(303)
    const { text } = await owner.get(headers.location!)
    expect(text).toContain('Next: <strong>call</strong>')
  })
})
