import type { Bed, Size } from './bed.ts'
import type { Measuring, RateTable } from './rate-table.ts'
import { shapeOf } from './shape.ts'

/** The relative standard errors of a bed's area: what it shares with every bed of the job, and its own. */
export interface BedErrors {
  shared: number
  own: number
}

const MOST_OWN = 0.3
// Told spreads ('0-40') could otherwise make a bed negative in the lowest draws that count.
const MOST_SHARED = 0.5

/** The errors of a bed's area, by the way it was measured or as if it were measured another way. */
export function bedErrors(bed: Bed, table: RateTable, by: Measuring | null = null): BedErrors {
  const shape = shapeOf(bed.shape)
  if (bed.sizes.volume) return { shared: 0, own: volumeError(bed.sizes.volume, shape.ownError, table) }
  const values = Object.fromEntries(Object.entries(bed.sizes).map(([name, size]) => [name, size.value]))
  const elasticities = shape.elasticities(values)
  let shared = 0
  let own = shape.ownError ** 2
  Object.entries(bed.sizes).forEach(([name, size], index) => {
    const { sigma, rho } = sizeError(size, name === 'area' ? 2 : 1, bed, table, by)
    shared += elasticities[index]! * sigma * Math.sqrt(rho)
    own += (elasticities[index]! * sigma) ** 2 * (1 - rho)
  })
  return { shared: Math.min(Math.abs(shared), MOST_SHARED), own: Math.min(Math.sqrt(own), MOST_OWN) }
}

// 'about 20' is by eye however the rest was measured; '20-25' is as uncertain as it says. An area's spread is twice
// that of the length it stands for.
function sizeError(size: Size, power: number, bed: Bed, table: RateTable, by: Measuring | null) {
  const way = by ?? (size.about ? 'eye' : size.paced ? 'paces' : bed.measuredBy)
  const { sigma, rho } = table.measuring[size.spread && !by ? 'eye' : way]
  if (!size.spread || by) return { sigma: Number(sigma), rho: Number(rho) }
  return { sigma: size.spread.div(size.value).toNumber() / power, rho: Number(rho) }
}

function volumeError(volume: Size, usual: number, table: RateTable): number {
  const told = volume.spread?.div(volume.value).toNumber() ?? 0
  const guessed = volume.about ? Number(table.measuring.eye.sigma) : 0
  return Math.min(Math.hypot(usual, told, guessed), MOST_OWN)
}
