import { Decimal, sumOf, zero } from '../decimal.ts'
import { listOf } from '../lists.ts'
import type { Shape } from '../shape.ts'
import { pathNumber } from '../svg-path.ts'

/**
 * A bed along a line, by its widths at one spacing: Simpson's rule over an odd number of widths; of an even number it
 * leaves the last strip to the trapezoid rule, as Punmia, Surveying, does. The first and the last may be zero.
 */
export const offsets: Shape = {
  sizes: [
    { name: 'spacing', reads: 'length' },
    { name: 'offsets', reads: 'lengths' },
  ],
  area: sizes => {
    const widths = listOf(sizes, 'offsets')
    return sizes.spacing!.times(sumOf(weighted(widths))).div(6)
  },
  // One side lies along the line; the other joins the ends of the widths.
  edge: sizes => {
    const [spacing, widths] = [sizes.spacing!, listOf(sizes, 'offsets')]
    const steps = widths.slice(1).map((width, at) => width.minus(widths[at]!))
    const far = sumOf(steps.map(step => step.pow(2).plus(spacing.pow(2)).sqrt()))
    return far.plus(spacing.times(steps.length)).plus(widths[0]!).plus(widths.at(-1)!)
  },
  elasticities: sizes => {
    const parts = weighted(listOf(sizes, 'offsets'))
    const whole = sumOf(parts)
    return [1, ...parts.map(part => part.div(whole).toNumber())]
  },
  ownError: 0,
  impossible: sizes => {
    const widths = listOf(sizes, 'offsets')
    if (widths.length < 2) return { size: 'offsets', key: 'fault.offsets-few' }
    const inner = widths.slice(1, -1)
    const flat =
      widths.length === 2 ? widths.every(width => width.isZero()) : inner.some(width => width.isZero())
    return flat ? { size: 'offsets', key: 'fault.offsets-zero' } : null
  },
  outline: sizes => {
    const [spacing, widths] = [sizes.spacing!, listOf(sizes, 'offsets')]
    const height = pathNumber(Decimal.max(zero, ...widths))
    const width = pathNumber(spacing.times(widths.length - 1))
    const corners = widths.map(
      (one, at) => `L${pathNumber(spacing.times(at))} ${pathNumber(height - Number(one))}`,
    )
    return {
      width,
      height,
      path: `M0 ${height}${corners.join('')}L${width} ${height}Z`,
      wall: null,
      dimensions: [{ size: 'spacing', from: [0, height], to: [pathNumber(spacing), height], place: 'below' }],
      notional: false,
    }
  },
}

/** Each width times what it counts in the area, in sixths of a spacing. */
function weighted(widths: Decimal[]): Decimal[] {
  const sixths = widths.map(() => 0)
  const strips = widths.length - 1
  const bySimpson = strips < 2 ? 0 : strips - (strips % 2)
  for (let at = 0; at < bySimpson; at += 2) {
    sixths[at]! += 2
    sixths[at + 1]! += 8
    sixths[at + 2]! += 2
  }
  for (let at = bySimpson; at < strips; at++) {
    sixths[at]! += 3
    sixths[at + 1]! += 3
  }
  return widths.map((width, at) => width.times(sixths[at]!))
}
