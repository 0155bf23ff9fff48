import { Decimal, one, sumOf } from '../../lib/decimal.ts'
import { once } from '../../lib/once.ts'
import type { Carrier } from '../table/rate-table.ts'

/** How much of a material one trip carries, in yd³|m³: of each carrier its level load, or what its payload allows. */
export function tripVolume(carriers: Carrier[], density: string | null): Decimal | null {
  return carriers.length === 0 ? null : loadOf(carriers)(density)
}

// Of a few densities, asked for again and again.
const loadOf = once((carriers: Carrier[]) => {
  const known = new Map<string | null, Decimal>()
  return (density: string | null): Decimal => {
    const load =
      known.get(density) ??
      sumOf(
        carriers.map(carrier => Decimal.min(carrier.volume, byPayload(carrier, density) ?? carrier.volume)),
      )
    known.set(density, load)
    return load
  }
})

/**
 * How much of a load a yd³|m³ of a density takes beside those of others: in what measure doesn't matter. With one carrier it
 * is one in which nothing is divided.
 */
export const loadWeights = once((carriers: Carrier[]) => {
  const known = new Map<string | null, Decimal>()
  return (density: string | null): Decimal => {
    const weight = known.get(density) ?? weightOf(carriers, density)
    known.set(density, weight)
    return weight
  }
})

// With one carrier 1 ÷ volume, or density ÷ payload, times volume × payload.
function weightOf(carriers: Carrier[], density: string | null): Decimal {
  const [carrier, ...others] = carriers
  if (!carrier) return one
  if (others.length > 0) return one.div(loadOf(carriers)(density))
  if (carrier.payload === null) return one
  const allowed = byPayload(carrier, density)
  return allowed?.lt(carrier.volume)
    ? new Decimal(density!).times(carrier.volume)
    : new Decimal(carrier.payload)
}

/** A carrier that a level load of a material is too heavy for; weight and payload in lb|kg. */
export interface TooHeavy {
  carrier: Carrier
  weight: Decimal
  payload: Decimal
}

/** The carriers whose level load, wet, would weigh more than they may carry. */
export function tooHeavy(carriers: Carrier[], density: string | null): TooHeavy[] {
  return carriers.flatMap(carrier => {
    const allowed = byPayload(carrier, density)
    if (allowed === null || allowed.gte(carrier.volume)) return []
    const weight = new Decimal(density!).times(carrier.volume)
    return [{ carrier, weight, payload: new Decimal(carrier.payload!) }]
  })
}

function byPayload({ payload }: Carrier, density: string | null): Decimal | null {
  return payload === null || density === null ? null : new Decimal(payload).div(density)
}
