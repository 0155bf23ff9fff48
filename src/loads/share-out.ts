import type { ExtraPack, Pack } from '../estimate/table/pack.ts'
import { Decimal, type Decimal as DecimalOf, zero } from '../lib/decimal.ts'
import { amountIn, type Wanted, withGot } from './wanted.ts'

/** How much of something that was got a job has, in packs, or in yd³|m³ or tons|tonnes of what is loose. */
export interface Share {
  jobId: number
  units: DecimalOf
}

const PLACES = 6

/**
 * Gives so many units of a pack (contents is what one gives) to the jobs that want it, one after the other as much as
 * each still needs; what is over goes to the last that got some. Gives the shares, and what is left to be wanted.
 */
export function shareOut(
  units: DecimalOf,
  contents: DecimalOf,
  pack: Pack | ExtraPack | undefined,
  wanted: Wanted[],
): { shares: Share[]; wanted: Wanted[] } {
  let rest = units
  const given = wanted.map(one => {
    const needed = amountIn(one, pack).times(one.left).div(contents).toDecimalPlaces(PLACES, Decimal.ROUND_UP)
    const give = needed.lt(rest) ? needed : rest
    rest = rest.minus(give)
    return give
  })
  const last = Math.max(
    given.findLastIndex(give => give.gt(0)),
    0,
  )
  if (given.length > 0) given[last] = given[last]!.plus(rest)
  const after = wanted.map((one, index) => {
    const amount = amountIn(one, pack)
    return given[index]!.isZero() || amount.isZero()
      ? one
      : withGot(one, given[index]!.times(contents).div(amount))
  })
  const shares = wanted.flatMap(({ jobId }, index) =>
    given[index]!.gt(0) ? [{ jobId, units: given[index]! }] : [],
  )
  return { shares, wanted: after }
}

/**
 * Shares as they are handed out, in whole packs: each job takes up to where those before it and itself end, so that
 * together they are as many as there are.
 */
export function inWholePacks(shares: Share[], all: DecimalOf): Share[] {
  let sum = zero
  let given = zero
  return shares.map(({ jobId, units }, index) => {
    sum = sum.plus(units)
    const upTo = index === shares.length - 1 ? all : sum.toDecimalPlaces(3).ceil()
    const own = (upTo.gt(all) ? all : upTo).minus(given)
    given = given.plus(own)
    return { jobId, units: own }
  })
}
