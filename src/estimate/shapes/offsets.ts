import { type Decimal, sumOf } from '../../lib/decimal.ts'
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
import { pathNumber } from './svg-path.ts'

// A bed along a line, by its widths at one spacing; any of them may be zero, where the bed narrows to nothing.
export const offsets: Shape = {
  offered: false,
  icon: [
    { path: 'M5 29C12 10 20 8 28 13S46 12 51 29Z' },
    { path: 'M16 12V29M28 13V29M40 13V29', as: 'thin' },
  ],
  sizes: [
    { name: 'spacing', reads: 'length' },
    { name: 'offsets', reads: 'lengths' },
  ],
  area: sizes => areaAlong(lineOf(sizes)).area,
  formula: (sizes, f) => formulaOf(sizes.spacing!, listOf(sizes, 'offsets'), f),
  edge: sizes => edgeAlong(lineOf(sizes)),
  elasticities: sizes => {
    const { area, byWidth } = areaAlong(lineOf(sizes))
    return [1, ...byWidth.map(part => part.div(area.times(6)).toNumber())]
  },
  edgeElasticities: sizes => {
    const { bySpacing, byWidth } = edgeElasticitiesAlong(lineOf(sizes))
    return [bySpacing.reduce((sum, part) => sum + part, 0), ...byWidth]
  },
  formError: sizes => formErrorAlong(lineOf(sizes)),
  impossible: sizes => {
    const key = emptyAlong(lineOf(sizes))
    return key === null ? null : { size: 'offsets', key }
  },
  outline: sizes => {
    const outline = outlineAlong(lineOf(sizes))
    const [spacing, { height }] = [pathNumber(sizes.spacing!), outline]
    return {
      ...outline,
      dimensions: [{ size: 'spacing', from: [0, height], to: [spacing, height], place: 'below' }],
    }
  },
}

function lineOf(sizes: Sizes): AlongLine {
  const widths = listOf(sizes, 'offsets')
  return { spacings: widths.slice(1).map(() => sizes.spacing!), widths }
}

function formulaOf(spacing: Decimal, widths: Decimal[], f: FormulaFigures): string {
  const odd = widths.length % 2 === 1 ? widths : widths.slice(0, -1)
  const last = widths.slice(odd.length - 1)
  const rest =
    last.length > 1 ? `${f.length(spacing)} × (${f.plain(last[0]!)} + ${f.plain(last[1]!)}) ÷ 2` : ''
  if (odd.length < 3) return rest
  const inner = odd.slice(1, -1)
  const sum = (every: number) => f.plain(sumOf(inner.filter((_, at) => at % 2 === every)))
  const ends = f.plain(odd[0]!.plus(odd.at(-1)!))
  const twice = inner.length > 1 ? ` + 2 × ${sum(1)}` : ''
  const simpson = `${f.length(spacing)} ÷ 3 × (${ends} + 4 × ${sum(0)}${twice})`
  return rest ? `${simpson} + ${rest}` : simpson
}
