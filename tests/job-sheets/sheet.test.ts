import { afterAll, beforeAll, expect, test } from 'vitest'
import { findDigDecisions, findTicket } from '../../src/job-sheets/dig-ticket.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, bookedToday, standing } from '../helpers/bookings.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { bedTold, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let helper: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  helper = await helperBrowser(app)
})
afterAll(() => app.close())

const diggingJob = () => bookedToday(app, '0.5', { told: { ...told(), extras: ['edging'] } })
const send = (who: Browser, number: string, part: string, fields: Record<string, string>) =>
  who.post(`/days/jobs/${number}/${part}`).type('form').send(fields)
const sheet = (who: Browser, number: string) => who.get(`/days/jobs/${number}/sheet`)

const TICKET = {
  version: '0',
  ticketNumber: 'A12-7',
  requested: '2026-02-25',
  from: '2026-03-02',
  until: '2026-03-15',
  'answers.0.utility': 'Gas',
  'answers.0.answer': 'marked',
}

test('a bed is drawn, with what comes first, what it takes, and its edge; no money, in the helper’s language', async () => {
  const beds = [
    bedTold({ sizes: { length: '12', width: '12' }, carry: '80 ft', stairs: '3', gate: 'narrow' }),
  ]
  const job = await bookedToday(app, '0.5', { told: { ...told(...beds), extras: ['edging'] } })
  const page = await sheet(helper, job.number)
  expect(page.status).toBe(200)
  expect(page.text).toContain('<svg')
  const steps = [...page.text.matchAll(/<li>([^<]*)<\/li>/g)].map(([, step]) => step!)
  const at = (words: string) => steps.findIndex(step => step.includes(words))
  // 36 ft³ and 5 % for settling, 6 ft³ a load: 6.3 loads.
  expect(at('3 in deep: 6.3 wheelbarrow loads')).toBeGreaterThan(at('fresh edge'))
  expect(at('fresh edge')).toBeGreaterThanOrEqual(0)
  expect(page.text).toContain('Edge: 48 feet')
  expect(page.text).toContain('3 stairs')
  expect(page.text).toContain('Carry 80 ft from the pile')
  expect(page.text).not.toMatch(/\$\d/)
  const es = await helper.get(`/days/jobs/${job.number}/sheet?language=es`)
  expect(es.text).toContain('carretillas')
  expect(es.text).toContain('Las líneas privadas no están marcadas')
  expect(es.text).not.toContain('wheelbarrow')
  await helper.get('/days?language=en')
})

test('without a ticket it says so, asks who decided, and never that the job is cleared', async () => {
  const job = await diggingJob()
  const page = await sheet(owner, job.number)
  expect(page.text).toContain('No 811 ticket entered.')
  expect(page.text).toContain('Private lines aren’t marked')
  expect(page.text).toContain('Nobody is entered as having decided to go on.')
  expect(page.text).not.toMatch(/cleared|safe to dig/i)
  expect((await send(helper, job.number, 'go-on', { decidedBy: '' })).status).toBe(422)
  for (const _twice of [1, 2]) await send(helper, job.number, 'go-on', { decidedBy: 'Alice Fern' })
  expect(await findDigDecisions(app.db, job.id)).toHaveLength(1)
  const { verbs } = await standing(app, job.id)
  expect(verbs.filter(verb => verb === 'decided to dig')).toHaveLength(1)
  expect((await sheet(owner, job.number)).text).toContain('Alice Fern decided to go on. Entered by Hugo Moss')
  const plain = await bookedToday(app)
  expect((await sheet(owner, plain.number)).text).not.toContain('ticket entered')
})

test('a ticket is shown as entered, with its answers; a stale page doesn’t take another’s place', async () => {
  const job = await diggingJob()
  expect((await send(helper, job.number, 'ticket', TICKET)).status).toBe(303)
  expect((await send(helper, job.number, 'ticket', TICKET)).status).toBe(303)
  expect((await findTicket(app.db, job.id)).version).toBe(1)
  const page = await sheet(owner, job.number)
  expect(page.text).toContain('Utility ticket A12-7')
  expect(page.text).toContain('Gas: marked')
  expect(page.text).toContain('Private lines aren’t marked')
  const stale = await send(owner, job.number, 'ticket', { ...TICKET, ticketNumber: 'B1' })
  expect(stale.status).toBe(409)
  expect(stale.text).toContain('Somebody entered another ticket')
  await send(owner, job.number, 'go-on', { decidedBy: 'Alice Fern' })
  const late = { ...TICKET, version: '1', from: '2026-03-03' }
  expect((await send(owner, job.number, 'ticket', late)).status).toBe(303)
  const again = await sheet(owner, job.number)
  expect(again.text).toContain('is outside its dates')
  expect(again.text).toContain('before the ticket changed')
  const faulty = await send(owner, job.number, 'ticket', {
    ...late,
    version: '2',
    until: '2026-03-01',
    from: '2026-02-20',
  })
  expect(faulty.status).toBe(422)
  expect(faulty.text).toContain('It can’t be valid before it was requested.')
})

test('dates that are left empty follow from the owner’s settings, with their source', async () => {
  const job = await diggingJob()
  const empty = { ...TICKET, requested: '2026-03-02', from: '', until: '' }
  expect((await send(owner, job.number, 'ticket', empty)).text).toContain(
    'Give the day from which it’s valid.',
  )
  const rule = { barrow: '5', digWaitDays: '2', digValidDays: '10', digSource: 'Our state’s rule' }
  expect(
    (
      await owner
        .post('/settings/job-sheets')
        .type('form')
        .send({ ...rule, barrow: '0' })
    ).status,
  ).toBe(422)
  expect((await owner.post('/settings/job-sheets').type('form').send(rule)).status).toBe(303)
  expect((await sheet(helper, job.number)).text).toContain('Source: Our state’s rule')
  expect((await sheet(helper, job.number)).text).toContain('Wheelbarrow of 5 cubic feet')
  await send(owner, job.number, 'ticket', empty)
  expect((await findTicket(app.db, job.id)).ticket).toMatchObject({ from: '2026-03-04', until: '2026-03-13' })
  await app.db.deleteFrom('job_sheet_settings').execute()
})

test('moving a job names the ticket whose dates a day breaks', async () => {
  const job = await diggingJob()
  await send(owner, job.number, 'ticket', { ...TICKET, until: '2026-03-04' })
  const request = await owner.get(`/queue/${job.number}`)
  expect(request.text).toContain('March 5 (outside the dates of utility ticket A12-7)')
  expect(request.text).toMatch(/March 4</)
  const rain = await owner.get('/days/2026-03-02/rain')
  expect(rain.text).toContain('Mar 5 (outside the dates of utility ticket A12-7)')
})

test('who must be home and where the pile goes are kept with the place; what isn’t booked has no sheet', async () => {
  const job = await bookedToday(app)
  const notes = { home: 'Carol, for the gate', pile: 'Left of the driveway' }
  expect((await send(helper, job.number, 'place', notes)).status).toBe(303)
  const page = await sheet(helper, job.number)
  expect(page.text).toContain('<dd>Left of the driveway</dd>')
  expect(page.text).toContain('<dd>Carol, for the gate</dd>')
  expect((await sheet(owner, (await acceptedRequest(app, '1')).number)).status).toBe(404)
})
