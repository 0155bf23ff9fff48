import type { TestApp } from '../helpers/app.ts'
import { bookedToday, changedRequest, closedRequest } from '../helpers/bookings.ts'
import { loadPage } from '../helpers/loads.ts'
import { someOnHand } from '../helpers/on-hand.ts'
import { ordersPage, someSupplier } from '../helpers/orders.ts'

/** Jobs on the day of their work, and after it. */
export const workedJobs = (app: TestApp) => [bookedToday, closedRequest].map(make => () => make(app))

/** The pages of a job that whoever works on it sees, each in its states. */
export function jobPages(app: TestApp): Record<string, (() => Promise<string>)[]> {
  const job = (make: () => Promise<{ number: string }>, part: string) => async () =>
    `/days/jobs/${(await make()).number}/${part}`
  return {
    '/days/jobs/:number/change': [job(() => changedRequest(app), 'change')],
    '/days/jobs/:number/close': workedJobs(app).map(make => job(make, 'close')),
    '/loads/:day': [() => loadPage(app), () => loadPage(app, 'sold out')],
    '/loads/along': [async () => '/loads/along'],
    '/orders': [() => ordersPage(app), () => ordersPage(app, 'ordered')],
    '/orders/suppliers': [async () => '/orders/suppliers'],
    '/orders/suppliers/:id': [async () => `/orders/suppliers/${await someSupplier(app)}`],
    '/on-hand': [async () => '/on-hand', () => someOnHand(app).then(() => '/on-hand')],
    '/on-hand/:id': [async () => `/on-hand/${await someOnHand(app)}`],
  }
}
