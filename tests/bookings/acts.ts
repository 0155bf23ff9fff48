import { bookDay } from '../../src/bookings/booking.ts'
import { moveWork } from '../../src/bookings/move.ts'
import { moveForRain, type RainSent } from '../../src/bookings/rain.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { takeOff } from '../../src/days/crew.ts'
import type { Deps } from '../../src/deps.ts'
import { Conflict } from '../../src/http/errors.ts'
import { setVisit } from '../../src/visits/visit.ts'

/** Something that takes room of days or gives it back, as one process tells another of it. */
export type Act =
  | { verb: 'rain'; sent: RainSent }
  | { verb: 'move'; id: number; from: string; to: string }
  | { verb: 'book'; id: number; day: string }
  | { verb: 'visit'; id: number; at: string }
  | { verb: 'off'; person: number; day: string }

/** What became of an act: null where it was done, why it was refused, or a fault whole. */
export type Said = null | 'no room' | 'refused' | string

export const isFault = (said: Said) => said !== null && said !== 'no room' && said !== 'refused'

/** Does them in so many lanes, each one after another. */
export async function doActs(deps: Deps, acts: Act[], lanes: number): Promise<Said[]> {
  const said: Said[] = []
  const ahead = acts.entries()
  const lane = async () => {
    for (const [nth, act] of ahead) said[nth] = await doAct(deps, act).then(() => null, refusalOf)
  }
  await Promise.all(Array.from({ length: lanes }, lane))
  return said
}

function refusalOf(error: unknown): Said {
  if (error instanceof DayGone) return 'no room'
  return error instanceof Conflict ? 'refused' : String((error as Error)?.stack ?? error)
}

const STAFF = { kind: 'staff', accountId: 1 } as const

async function doAct(deps: Deps, act: Act): Promise<void> {
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
