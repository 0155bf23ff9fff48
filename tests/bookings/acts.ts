import { bookDay } from '../../src/bookings/booking.ts'
import { moveWork } from '../../src/bookings/move.ts'
import { moveForRain, type RainSent } from '../../src/bookings/rain.ts'
import { takeOff } from '../../src/days/crew.ts'
import type { Deps } from '../../src/deps.ts'
import { setVisit } from '../../src/visits/visit.ts'

/** Something that takes room of days or gives it back, as one process tells another of it. */
export type Act =
  | { verb: 'rain'; sent: RainSent }
  | { verb: 'move'; id: number; from: string; to: string }
  | { verb: 'book'; id: number; day: string }
  | { verb: 'visit'; id: number; at: string }
  | { verb: 'off'; person: number; day: string }

const STAFF = { kind: 'staff', accountId: 1 } as const

export async function doAct(deps: Deps, act: Act): Promise<void> {
  switch (act.verb) {
    case 'rain':
      return moveForRain(deps, STAFF.accountId, act.sent)
    case 'move':
      return moveWork(deps, act.id, act, STAFF)
    case 'visit':
      return setVisit(deps, STAFF.accountId, act.id, Temporal.Instant.from(act.at))
    case 'off':
      return takeOff(deps, act.person, act.day, act.day)
    case 'book':
      await bookDay(deps, act.id, act.day)
  }
}
