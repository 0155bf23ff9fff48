import {
  type AlongLine,
  areaAlong,
  edgeAlong,
  edgeElasticitiesAlong,
  emptyAlong,
  formErrorAlong,
  outlineAlong,
} from './along-line.ts'
import type { FormulaFigures, Shape } from './shape.ts'
import type { Sizes } from './sizes.ts'
import { listOf } from './sizes.ts'

// A bed along a line, by its widths wherever they were taken, as at every bend.
export const unevenOffsets: Shape = {
  offered: false,
  icon: [
    { path: 'M5 29C12 10 20 8 28 13S46 12 51 29Z' },
    { path: 'M12 16V29M20 10V29M42 14V29', as: 'thin' },
  ],
  sizes: [
    { name: 'spacings', reads: 'lengths' },
    { name: 'offsets', reads: 'lengths' },
  ],
  area: sizes => areaAlong(lineOf(sizes)).area,
  formula: (sizes, f) => formulaOf(lineOf(sizes), f),
  edge: sizes => edgeAlong(lineOf(sizes)),
  elasticities: sizes => {
    const { area, byWidth, strips } = areaAlong(lineOf(sizes))
    return [...strips, ...byWidth].map(part => part.div(area.times(6)).toNumber())
  },
  edgeElasticities: sizes => {
    const { bySpacing, byWidth } = edgeElasticitiesAlong(lineOf(sizes))
    return [...bySpacing, ...byWidth]
  },
  formError: sizes => formErrorAlong(lineOf(sizes)),
  impossible: sizes => {
    const line = lineOf(sizes)
    if (line.spacings.some(spacing => spacing.isZero()))
      return { size: 'spacings', key: 'fault.spacings-zero' }
    if (line.widths.length !== line.spacings.length + 1)
      return { size: 'offsets', key: 'fault.offsets-count' }
    const key = emptyAlong(line)
    return key === null ? null : { size: 'offsets', key }
  },
  outline: sizes => outlineAlong(lineOf(sizes)),
}

function lineOf(sizes: Sizes): AlongLine {
  return { spacings: listOf(sizes, 'spacings'), widths: listOf(sizes, 'offsets') }
}

// Two neighbouring strips of one spacing by Simpson's rule, a strip without such a neighbour as a trapezoid.
function formulaOf({ spacings, widths }: AlongLine, f: FormulaFigures): string {
  const parts: string[] = []
  for (let at = 0; at < spacings.length; ) {
    const spacing = spacings[at]!
    const paired = spacings[at + 1]?.eq(spacing) ?? false
    const [a, b, c] = widths.slice(at, at + 3).map(width => f.plain(width))
    parts.push(
      paired
        ? `${f.length(spacing)} ÷ 3 × (${a} + 4 × ${b} + ${c})`
        : `${f.length(spacing)} × (${a} + ${b}) ÷ 2`,
    )
    at += paired ? 2 : 1
  }
  return parts.join(' + ')
}
