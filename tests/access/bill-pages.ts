import type { TestApp } from '../helpers/app.ts'
import {
  billedRequest,
  creditMemoPage,
  doneRequest,
  overpaidRequest,
  ownBillPage,
  returnedRequest,
} from '../helpers/bills.ts'

/** Requests that show each of the forms about bills and the money for them. */
export function billStates(app: TestApp): (() => Promise<{ number: string }>)[] {
  return [() => doneRequest(app), () => overpaidRequest(app), () => returnedRequest(app)]
}

/** The pages about bills, by route. */
export function billPages(app: TestApp): Record<string, (() => string | Promise<string>)[]> {
  return {
    '/r/:token/bills/:bill': [() => ownBillPage(app)],
    '/bills/:bill': [async () => `/bills/${(await billedRequest(app)).bill}`, () => creditMemoPage(app)],
    '/settings/billing': [() => '/settings/billing'],
    '/accountant': [() => billedRequest(app).then(() => '/accountant')],
  }
}
