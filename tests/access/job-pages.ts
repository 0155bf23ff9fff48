import { randomUUID } from 'node:crypto'
import { noteTrouble } from '../../src/closing/troubles.ts'
import { decideToDig, enterTicket } from '../../src/job-sheets/dig-ticket.ts'
import { checkStop } from '../../src/job-sheets/stops-done.ts'
import type { TestApp } from '../helpers/app.ts'
import { bookedToday, changedRequest, closedRequest } from '../helpers/bookings.ts'
import { loadPage, someMiles } from '../helpers/loads.ts'
import { someOnHand } from '../helpers/on-hand.ts'
import { ordersPage, someSupplier } from '../helpers/orders.ts'
import { bedTold, told } from '../helpers/requests.ts'

/** Jobs on the day of their work, and after it. */
export const workedJobs = (app: TestApp) => [bookedToday, closedRequest].map(make => () => make(app))

/** A job that is done, with something to come back for and a photo of it. */
async function troubledJob(app: TestApp) {
  const job = await closedRequest(app)
  const small = { jpeg: Buffer.from('a photo'), width: 4, height: 3 }
  const photo = { made: { picture: small, small }, words: '', digest: 'of a photo' }
  const told = { kind: 'come back', words: 'Rake the walk', day: '2026-03-09', photo } as const
  await noteTrouble(app.deps, 1, job.id, { key: randomUUID(), ...told })
  return job
}

/** A job that digs, with a ticket and somebody who decided to go on. */
async function diggingJob(app: TestApp) {
  const job = await bookedToday(app, '0.25', { told: { ...told(), extras: ['edging'] } })
  const dates = { requested: '2026-02-25', from: '2026-03-02', until: '2026-03-15' }
  const answers = [{ utility: 'Gas', answer: 'marked' }]
  await enterTicket(app.deps, 1, job.id, 0, { number: 'A12', ...dates, answers })
  await decideToDig(app.deps, 1, job.id, 'Alice Fern')
  return job
}

/** A job at two stops, one of which is done. */
async function stopsJob(app: TestApp) {
  const stops = ['North', 'South'].map(name => ({ name, note: '', spot: '' }))
  const beds = [bedTold({ stop: 0 }), bedTold({ stop: 1 })]
  const job = await bookedToday(app, '0.25', { told: { ...told(...beds), stops } })
  await checkStop(app.deps, 1, job.id, { stop: 0, isDone: true })
  return job
}

/** What is loaded, ordered and on hand, once the rates list packs: so the pages of the rates come before. */
export function packPages(app: TestApp): Record<string, (() => Promise<string>)[]> {
  return {
    '/loads/:day': [
      () => loadPage(app),
      () => loadPage(app, 'sold out'),
      () => someMiles(app, '2026-03-02').then(() => '/loads/2026-03-02'),
    ],
    '/loads/along': [async () => '/loads/along'],
    '/orders': [() => ordersPage(app), () => ordersPage(app, 'ordered')],
    '/orders/suppliers': [async () => '/orders/suppliers'],
    '/orders/suppliers/:id': [async () => `/orders/suppliers/${await someSupplier(app)}`],
    '/on-hand': [async () => '/on-hand', () => someOnHand(app).then(() => '/on-hand')],
    '/on-hand/:id': [async () => `/on-hand/${await someOnHand(app)}`],
  }
}

/** The pages of a job that whoever works on it sees, each in its states. */
export function jobPages(app: TestApp): Record<string, (() => Promise<string>)[]> {
  const job = (make: () => Promise<{ number: string }>, part: string) => async () =>
    `/days/jobs/${(await make()).number}/${part}`
  return {
    '/days/jobs/:number/change': [job(() => changedRequest(app), 'change')],
    '/settings/job-sheets': [async () => '/settings/job-sheets'],
    '/days/jobs/:number/sheet': [bookedToday, diggingJob, stopsJob].map(make =>
      job(() => make(app), 'sheet'),
    ),
    '/days/jobs/:number/close': [...workedJobs(app), () => troubledJob(app)].map(make => job(make, 'close')),
  }
}
