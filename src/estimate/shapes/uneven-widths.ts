import { Decimal, one, sumOf, two, zero } from '../../lib/decimal.ts'
import { type AlongLine, edgeElasticitiesAlong } from './along-line.ts'
import type { FormulaFigures, Shape } from './shape.ts'
import type { Sizes } from './sizes.ts'
import { listOf } from './sizes.ts'
import { unevenOffsets } from './uneven-offsets.ts'

/**
 * A bed by its widths at uneven distances, two strips at a time by a parabola through their three widths. It is told as
 * `uneven-offsets`; what was understood as that keeps its own rule.
 */
export const unevenWidths: Shape = {
  ...unevenOffsets,
  area: sizes => areaOf(lineOf(sizes)),
  formula: (sizes, f) => formulaOf(lineOf(sizes), f),
  elasticities: sizes => {
    const line = lineOf(sizes)
    const area = areaOf(line).toNumber()
    const counts = countsOf(line)
    const byWidth = line.widths.map((width, at) => width.times(counts[at]!).div(6).toNumber() / area)
    return [...elasticitiesOfStrips(line, area), ...byWidth]
  },
  edgeElasticities: sizes => {
    const { bySpacing, byWidth } = edgeElasticitiesAlong(lineOf(sizes))
    return [...bySpacing, ...byWidth]
  },
}

function lineOf(sizes: Sizes): AlongLine {
  return { spacings: listOf(sizes, 'spacings'), widths: listOf(sizes, 'offsets') }
}

function areaOf(line: AlongLine): Decimal {
  const counts = countsOf(line)
  return sumOf(line.widths.map((width, at) => width.times(counts[at]!))).div(6)
}

/** How much each width counts, in sixths of ft|m. A strip that is left without a partner is a trapezoid. */
function countsOf({ spacings, widths }: AlongLine): Decimal[] {
  const counts = widths.map(() => zero)
  for (let at = 0; at < spacings.length; at += 2) {
    const [left, right] = [spacings[at]!, spacings[at + 1]]
    const parts = right ? countsOfPair(left, right) : [left.times(3), left.times(3)]
    for (const [step, part] of parts.entries()) counts[at + step] = counts[at + step]!.plus(part)
  }
  return counts
}

/**
 * In sixths, by Simpson's rule for irregularly spaced data: of strips h and k, h + k times 2 − k/h, (h + k)² ÷ hk and 2 − h/k (K. V.
 * Cartwright, Journal of Mathematical Sciences and Mathematics Education 12(2), 2017). Where one strip is more than twice the
 * other, the outer width there would count less than nothing, and a wider bed be smaller: then as much of two trapezoids is mixed in as
 * that takes.
 */
function countsOfPair(h: Decimal, k: Decimal): [Decimal, Decimal, Decimal] {
  const both = h.plus(k)
  const parabola = [
    both.times(two.minus(k.div(h))),
    both.pow(3).div(h.times(k)),
    both.times(two.minus(h.div(k))),
  ]
  const trapezoids = [h.times(3), both.times(3), k.times(3)]
  const share = shareOfParabola(h, k)
  const [a, b, c] = parabola.map((part, at) =>
    part.times(share).plus(trapezoids[at]!.times(one.minus(share))),
  )
  return [a!, b!, c!]
}

/** All of it up to twice, and ever less from there: so that the outer width of the shorter strip counts nothing. */
function shareOfParabola(h: Decimal, k: Decimal): Decimal {
  const ratio = Decimal.max(h.div(k), k.div(h))
  if (ratio.lte(2)) return one
  return one.div(one.plus(ratio.plus(1).times(ratio.minus(2)).div(3)))
}

const STEP = new Decimal('1e-9')

// A pair grows as both of its strips do: what one doesn't make of it the other does.
function elasticitiesOfStrips({ spacings, widths }: AlongLine, area: number): number[] {
  return spacings.map((spacing, at) => {
    const first = at - (at % 2)
    const strips = spacings.slice(first, first + 2)
    const there = widths.slice(first, first + 3)
    const moved = (by: Decimal) =>
      areaOf({ spacings: strips.with(at - first, spacing.times(one.plus(by))), widths: there })
    const grown = moved(STEP).minus(moved(STEP.negated()))
    return grown.div(STEP.times(2)).toNumber() / area
  })
}

function formulaOf({ spacings, widths }: AlongLine, f: FormulaFigures): string {
  const parts: string[] = []
  for (let at = 0; at < spacings.length; at += 2) {
    const [h, k] = [spacings[at]!, spacings[at + 1]]
    const [a, b, c] = widths.slice(at, at + 3).map(width => f.plain(width))
    if (!k) parts.push(`${f.length(h)} × (${a} + ${b}) ÷ 2`)
    else if (h.eq(k)) parts.push(`${f.length(h)} ÷ 3 × (${a} + 4 × ${b} + ${c})`)
    else {
      const [first, second, third] = countsOfPair(h, k).map(count => f.length(count.div(6)))
      parts.push(`${first} × ${a} + ${second} × ${b} + ${third} × ${c}`)
    }
  }
  return parts.join(' + ')
}
