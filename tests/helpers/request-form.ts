import { randomUUID } from 'node:crypto'
import type { TestApp } from './app.ts'

/** Two beds as the form's page posts them. */
export const BEDS = {
  'beds.0.shape': 'rectangle',
  'beds.0.sizes.length': '40',
  'beds.0.sizes.width': '15',
  'beds.0.finish': 'shredded-wood',
  'beds.1.shape': 'circle',
  'beds.1.sizes.diameter': 'about 9',
  'beds.1.finish': 'stone',
  'beds.1.count': '2',
  measuredBy: 'paces',
  'extras[]': 'edging',
}

/** Who sends them, as typed. */
export const CAROL = {
  name: ' Carol  Reyes ',
  phone: '+1 (512) 555-0177',
  email: 'carol@example.com',
  street: '12 Fern Lane, Austin',
  postcode: '78702-1234',
  preferredTimes: 'weekdays after 4',
  gate: 'code 12',
  dog: 'Rex, friendly',
  note: 'Two beds\r\nby the porch',
}

/** Posts the form as one browser does, under a submission key of its own. */
export function sendBy(app: TestApp, fields: Record<string, string> = {}) {
  return app
    .browser()
    .post('/requests')
    .type('form')
    .send({ ...BEDS, ...CAROL, submissionKey: randomUUID(), ...fields })
}

let caller = 0

/** Posts the form, from another address each time, so that the limit of a few a minute is not met. */
export async function sendForm(app: TestApp, fields: Record<string, string> = {}) {
  caller += 1
  const answer = await app.server.inject({
    method: 'POST',
    url: '/requests',
    remoteAddress: `198.18.${caller >> 8}.${caller & 255}`,
    headers: { origin: 'http://localhost:8080', 'content-type': 'application/x-www-form-urlencoded' },
    payload: new URLSearchParams({ ...BEDS, ...CAROL, submissionKey: randomUUID(), ...fields }).toString(),
  })
  return { status: answer.statusCode, text: answer.body, location: answer.headers.location }
}
