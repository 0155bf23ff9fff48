import { type Collected, type Trips, tripsUsed, usedBy } from '../../../src/estimate/packs/trips.ts'

/** How many trips fetch all of this, one after another of the finishes. */
export function countTrips(trips: Trips, all: Collected[]): number {
  return tripsUsed(usedBy(trips, all), 0, trips.limits)
}
