import { randomUUID } from 'node:crypto'
import type { BedTold, Told } from '../../src/estimate/job/bed.ts'
import { type Sending, type Sent, sendQuoteRequest } from '../../src/requests/quote-request.ts'
import type { TestApp } from './app.ts'

/** A bed as told: 20 ft × 5 ft by tape, open and bare, shredded wood 3 in deep; what is given instead counts. */
export function bedTold(instead: Partial<BedTold> = {}): BedTold {
  return {
    shape: 'rectangle',
    sizes: { length: '20 ft', width: '5 ft' },
    count: '1',
    measuredBy: 'tape',
    planted: 'open',
    lying: 'bare',
    finish: 'shredded-wood',
    depth: '3 in',
    ...instead,
  }
}

export function told(...beds: BedTold[]): Told {
  return { beds: beds.length > 0 ? beds : [bedTold()], extras: [], postcode: '' }
}

/** What Carol sends; what is given instead counts. */
export function sending(instead: Partial<Sending> = {}): Sending {
  return {
    submissionKey: randomUUID(),
    told: told(),
    name: 'Carol Reyes',
    phone: '(555) 010-0199',
    email: 'carol@example.com',
    street: '12 Fern Lane',
    postcode: '43004',
    preferredTimes: 'Weekday mornings',
    gate: '',
    dog: '',
    note: '',
    language: 'en',
    ...instead,
  }
}

/** Sends a quote request through the application's own verb. The business must be open. */
export function sendRequest(app: TestApp, instead: Partial<Sending> = {}): Promise<Sent> {
  return sendQuoteRequest(app.deps, sending(instead))
}

/** Sends a request whose one bed is at a stop, as the staff tell it. */
export async function sendWithStop(app: TestApp) {
  const stop = { name: 'North entrance', note: 'Gate code 12', spot: 'By the pool' }
  return sendRequest(app, { told: { ...told(bedTold({ stop: 0 })), stops: [stop] } })
}
