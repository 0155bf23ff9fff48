import { Decimal, figureOf, roundToCent, zero } from '../../lib/decimal.ts'
import { contentsOf, type ExtraPack, type Pack, type Way } from '../table/pack.ts'
import type { UnitSystem } from '../units/units.ts'
import { wholeSteps } from './whole-steps.ts'

/** What buying in one way comes to, in money; contents in all, in yd³|m³ (of rolls ft²|m², of pieces ft|m). */
export interface Purchase {
  units: Decimal
  contents: Decimal
  each: Decimal
  material: Decimal
  delivery: Decimal
  /** More was bought than needed, because a better price or a free delivery makes it cost less. */
  upToBreak: boolean
}

/**
 * What may be bought in one way to have at least what is needed: as few units as do, or up to where something gets
 * cheaper. Between these more only costs more.
 */
export function purchasesFor(way: Way, need: Decimal, system: UnitSystem): Purchase[] {
  const { pack } = way
  const contents = contentsOf(pack, system)
  if (need.lte(0)) return [bought(way, zero, contents, false)]
  const least = unitsAtLeast(pack, need.div(contents))
  const further = turningPoints(way)
    .filter(from => least.lt(from))
    .map(from => unitsAtLeast(pack, figureOf(from)))
  return [least, ...further].map(units => bought(way, units, contents, units.gt(least)))
}

/** From how many units on something gets cheaper: a better price, or a delivery that is free. */
export function turningPoints({ pack, delivered }: Way): string[] {
  const free = delivered ? pack.delivered?.freeFrom : null
  return [...pack.prices.slice(1).map(({ from }) => from), ...(free ? [free] : [])]
}

function unitsAtLeast(pack: Pack | ExtraPack, quotient: Decimal): Decimal {
  const step = figureOf(pack.step)
  return wholeSteps(Decimal.max(quotient, figureOf(pack.least)).div(step)).times(step)
}

/** What so many units come to; contents is what one gives. */
export function bought(way: Way, units: Decimal, contents: Decimal, upToBreak: boolean): Purchase {
  const { pack } = way
  const each = figureOf(pack.prices.findLast(({ from }) => from === '0' || units.gte(figureOf(from)))!.each)
  const stakes = pack.kind === 'piece' ? figureOf(pack.stakes).times(pack.stakeEach) : zero
  return {
    units,
    contents: units.times(contents),
    each,
    material: roundToCent(units.times(stakes === zero ? each : each.plus(stakes))),
    delivery: deliveryOf(way, units),
    upToBreak,
  }
}

function deliveryOf({ pack, delivered }: Way, units: Decimal): Decimal {
  if (!delivered || !pack.delivered || units.isZero()) return zero
  const { fee, freeFrom } = pack.delivered
  return freeFrom !== null && units.gte(figureOf(freeFrom)) ? zero : figureOf(fee)
}
