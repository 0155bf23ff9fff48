import { Conflict } from '../http/errors.ts'
import type { Key } from '../language/catalogue.ts'

/** The contractor has made a newer revision than the one that was read. */
export class NewerRevision extends Conflict {
  constructor() {
    super('booking.newer-revision')
  }
}

/** What was read is not what would be accepted, as when the business changed an answer meanwhile. */
export class TextChanged extends Conflict {
  constructor() {
    super('accepted.changed')
  }
}

/** The day, or the week, that was chosen has no room any more, is closed, or can't be booked. */
export class DayGone extends Conflict {
  constructor(key: Key = 'booking.day-gone-kept') {
    super(key)
  }
}

/** The price no longer holds. */
export class NoLongerHolds extends Conflict {
  constructor() {
    super('booking.no-longer-holds')
  }
}
