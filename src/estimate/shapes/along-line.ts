import { Decimal, squareRoot, sumOf, zero } from '../../lib/decimal.ts'
import type { ShapeFaultKey } from './fault-keys.ts'
import type { Outline } from './outline.ts'
import type { FormError } from './shape.ts'
import { pathNumber } from './svg-path.ts'

/** A bed along a line: its widths, and the distance from each to the next, one fewer; all in ft|m. */
export interface AlongLine {
  spacings: Decimal[]
  widths: Decimal[]
}

/**
 * Its area in ft²|m², and what each width and each strip counts in it, in sixths. From the left two neighbouring
 * strips of one spacing go by Simpson's rule, a strip without an equal partner by the trapezoid rule; of equal
 * spacings and an even number of widths that leaves the last strip, as in Punmia, Surveying. Of two strips by
 * Simpson's rule each counts a half.
 */
export function areaAlong({ spacings, widths }: AlongLine) {
  const counts = widths.map(() => zero)
  const strips: Decimal[] = []
  const add = (at: number, sixths: number, spacing: Decimal) => {
    counts[at] = counts[at]!.plus(spacing.times(sixths))
  }
  for (let at = 0; at < spacings.length; ) {
    const [spacing, next] = [spacings[at]!, spacings[at + 1]]
    const [left, middle, right] = widths.slice(at, at + 3) as [Decimal, Decimal, Decimal]
    if (next?.eq(spacing)) {
      for (const [step, sixths] of [2, 8, 2].entries()) add(at + step, sixths, spacing)
      const half = left.plus(middle.times(4)).plus(right).times(spacing)
      strips.push(half, half)
      at += 2
    } else {
      for (const step of [0, 1]) add(at + step, 3, spacing)
      strips.push(left.plus(middle).times(3).times(spacing))
      at += 1
    }
  }
  const byWidth = widths.map((width, at) => width.times(counts[at]!))
  return { area: sumOf(byWidth).div(6), byWidth, strips }
}

/** One side lies along the line; the other joins the ends of the widths. In ft|m. */
export function edgeAlong({ spacings, widths }: AlongLine): Decimal {
  const far = spacings.map((spacing, at) => {
    const across = widths[at + 1]!.minus(widths[at]!)
    return squareRoot(across.times(across).plus(spacing.times(spacing)))
  })
  return sumOf(far).plus(sumOf(spacings)).plus(widths[0]!).plus(widths.at(-1)!)
}

/**
 * How strongly the edge follows each spacing and each width, size ÷ edge × ∂edge/∂size, in plain numbers: of a long list
 * each would else be worked out over and over.
 */
export function edgeElasticitiesAlong({ spacings, widths }: AlongLine) {
  const [along, across] = [spacings.map(Number), widths.map(Number)]
  const byWidth = across.map(() => 0)
  byWidth[0]! += across[0]!
  byWidth[across.length - 1]! += across.at(-1)!
  const bySpacing = along.map((spacing, at) => {
    const [left, right] = [across[at]!, across[at + 1]!]
    const far = Math.hypot(right - left, spacing)
    byWidth[at]! += (left * (left - right)) / far
    byWidth[at + 1]! += (right * (right - left)) / far
    return spacing + spacing ** 2 / far
  })
  const edge = [...bySpacing, ...byWidth].reduce((sum, part) => sum + part, 0)
  return { bySpacing: bySpacing.map(part => part / edge), byWidth: byWidth.map(part => part / edge) }
}

/**
 * The error of form of n strips: the larger of 0.01 and 0.9/n², computed on ellipses up to 3 : 1. Of a single one: two widths
 * tell a bed with straight sides, and it is as sure as the trapezoid that it is.
 */
export function formErrorAlong({ spacings }: AlongLine): FormError {
  if (spacings.length === 1) return 'plain'
  return Math.max(0.01, 0.9 / spacings.length ** 2)
}

/** Widths that enclose nothing: fewer than two, or all of them zero. */
export function emptyAlong({ widths }: AlongLine): ShapeFaultKey | null {
  if (widths.length < 2) return 'fault.offsets-few'
  return widths.every(width => width.isZero()) ? 'fault.offsets-zero' : null
}

/** Drawn with the line at the foot, the first width at the left. */
export function outlineAlong({ spacings, widths }: AlongLine): Outline {
  const height = pathNumber(Decimal.max(zero, ...widths))
  const reached = [0, ...spacings.map((_, at) => pathNumber(sumOf(spacings.slice(0, at + 1))))]
  const corners = widths.map((width, at) => `L${reached[at]} ${pathNumber(height - Number(width))}`)
  const across = reached.at(-1)!
  return {
    width: across,
    height,
    path: `M0 ${height}${corners.join('')}L${across} ${height}Z`,
    wall: null,
    dimensions: [],
    notional: false,
  }
}
