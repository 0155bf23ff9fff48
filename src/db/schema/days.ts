import type { Generated, GeneratedAlways } from 'kysely'

/**
 * How far somebody drove on a day. `odometer_out` and `odometer_back` are null where only the distance was told; amounts are
 * in `unit`, with a decimal.
 */
export interface MilesDrivenTable {
  id: GeneratedAlways<number>
  key: string
  day: string
  vehicle: string
  odometer_out: string | null
  odometer_back: string | null
  distance: string
  unit: 'mi' | 'km'
  words: string
  made_at: string
  made_by: number
  undone_at: Generated<string | null>
  undone_by: Generated<number | null>
}

/** `taken_hours` is kept by a trigger on booking_day; a CHECK keeps it within `room_hours`. */
export interface WorkDayTable {
  day: string
  room_hours: string
  taken_hours: Generated<string>
  /** What of that is booked on the morning, and on the afternoon; kept by triggers. */
  am_hours: GeneratedAlways<string>
  pm_hours: GeneratedAlways<string>
  /** Kept for what rain moves: homeowners aren't offered it. */
  is_makeup: Generated<boolean>
  /** The labor hours that visits need, and what of them the day has left beside the work; kept by triggers. */
  visit_need: GeneratedAlways<string>
  visit_hours: GeneratedAlways<string>
  /** The same of the morning and of the afternoon, parted at noon where the business is. */
  visit_am_need: GeneratedAlways<string>
  visit_pm_need: GeneratedAlways<string>
  visit_am_hours: GeneratedAlways<string>
  visit_pm_hours: GeneratedAlways<string>
  /** Whether the owner set its room, so that it doesn't follow who works. */
  by_hand: Generated<boolean>
  /** What a closed day is off for; '' where nothing was said. */
  off_for: Generated<string>
}

/** What was moved for rain in one go, by the key of its form. */
export interface RainMoveTable {
  key: string
  day: string
  made_at: string
  made_by: number
}

export interface CrewMemberTable {
  id: GeneratedAlways<number>
  name: string
  /** Labor hours on each weekday, Monday first. */
  hours: string[]
}

export interface CrewMemberOffTable {
  id: GeneratedAlways<number>
  crew_member_id: number
  from_day: string
  to_day: string
}

export interface BookingTable {
  id: GeneratedAlways<number>
  quote_request_id: number
  quote_id: number
  first_day: string
  made_at: string
  called_off_at: string | null
  /** Until when its days are held for who asked for them; null once they are booked. */
  held_until: string | null
  /** Of a week that was chosen: by when its day is said; null once it is. Its days are penciled in until then. */
  say_by: string | null
}

export interface BookingDayTable {
  booking_id: number
  day: string
  hours: string
  /** The morning or the afternoon; null of the day at large. */
  part: 'am' | 'pm' | null
}
