import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { cannotDo } from '../../src/bookings/cannot-do.ts'
import { declineQuote } from '../../src/bookings/not-this-time.ts'
import { sayDayUnsuited } from '../../src/bookings/unsuited.ts'
import { markJunk, putOnHold } from '../../src/queue/set-aside.ts'
import { addNote } from '../../src/requests/changed-by-homeowner.ts'
import { keepMeasurements, leaveVisitOut, setVisit } from '../../src/visits/visit.ts'
import type { TestApp } from '../helpers/app.ts'
import { acceptedRequest, depositRequest, quotedRequest } from '../helpers/bookings.ts'
import { givePhoto, sendUnseen } from '../helpers/photos.ts'
import { bedTold, sendRequest, sendWithStop, told } from '../helpers/requests.ts'
import { makeFirm } from './people-pages.ts'

/** Requests at every stage, each made when it is asked for. */
export function requestsOf(app: TestApp, ownerId: number) {
  const { deps } = app
  const fresh = () => sendRequest(app)
  const quoted = () => quotedRequest(app)
  const then =
    <Request extends { id: number }>(make: () => Promise<Request>, act: (id: number) => Promise<unknown>) =>
    async () => {
      const request = await make()
      await act(request.id)
      return request
    }
  const soonVisited = (id: number) => setVisit(deps, ownerId, id, deps.now().add({ hours: 48 }))
  const visitSet = then(fresh, soonVisited)
  const accepted = then(quoted, id => acceptQuote(deps, id, { revision: 1, typedName: 'Carol Reyes' }))
  const depositPaid = () => depositRequest(app)
  const measurements = told({ ...bedTold(), toldBed: 0 })
  const unseen = then(
    () => sendUnseen(app),
    id => givePhoto(app, id, 'the bed by the porch'),
  )
  // Several of them find room on the day.
  const booked = then(
    () => acceptedRequest(app, '0.5'),
    id => bookDay(deps, id, '2026-03-05'),
  )
  return {
    fresh,
    unseen,
    withPhoto: then(fresh, id => givePhoto(app, id)),
    visitSet,
    withStops: then(() => sendWithStop(app), soonVisited),
    leftOut: then(fresh, id => leaveVisitOut(deps, ownerId, id)),
    measured: then(visitSet, id => keepMeasurements(deps, ownerId, id, measurements)),
    turnedDown: then(fresh, id => cannotDo(deps, ownerId, id, { reason: 'far', words: '' })),
    heldWithNews: then(fresh, async id => {
      await putOnHold(deps, ownerId, id, '2026-03-20')
      await addNote(deps, id, 'Mind the gate')
    }),
    ofFirm: then(fresh, id => makeFirm(app, ownerId, id)),
    junk: then(fresh, id => markJunk(deps, ownerId, id)),
    calledOff: then(fresh, id => callOff(deps, id, 'Moving')),
    depositPaid,
    depositHeld: then(depositPaid, id => callOff(deps, id, 'Moving')),
    quoted,
    accepted,
    booked,
    unsuited: then(booked, id => sayDayUnsuited(deps, id, { from: '2026-03-05', words: '' })),
    declined: then(quoted, id => declineQuote(deps, id, { reason: 'price', words: '' })),
  }
}
