import { randomUUID } from 'node:crypto'
import { noteTrouble } from '../../src/closing/troubles.ts'
import type { TestApp } from '../helpers/app.ts'
import { bookedToday, changedRequest, closedRequest } from '../helpers/bookings.ts'
import { someOnHand } from '../helpers/on-hand.ts'

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

/** What is on hand, once the rates list packs: those of the rates come before. */
export function onHandPages(app: TestApp): Record<string, (() => Promise<string>)[]> {
  return {
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
    '/days/jobs/:number/close': [...workedJobs(app), () => troubledJob(app)].map(make => job(make, 'close')),
  }
}
