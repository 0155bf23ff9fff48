import { isCheckViolation } from '../db/violations.ts'

/**
 * What a transaction that books days comes to; where the database finds at the last moment that a day has no room for
 * them, it is refused by what `refusal` makes.
 */
export async function unlessRoomLost<T>(booked: Promise<T>, refusal: () => Error): Promise<T> {
  try {
    return await booked
  } catch (error) {
    if (isCheckViolation(error, 'work_day_has_room')) throw refusal()
    throw error
  }
}
