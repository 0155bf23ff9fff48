import { type AlongLine, areaAlong, edgeAlong, emptyAlong, outlineAlong } from './along-line.ts'
import type { Shape } from './shape.ts'
import type { Sizes } from './sizes.ts'
import { listOf } from './sizes.ts'
import { pathNumber } from './svg-path.ts'

// A bed along a line, by its widths at one spacing; any of them may be zero, where the bed narrows to nothing.
export const offsets: Shape = {
  sizes: [
    { name: 'spacing', reads: 'length' },
    { name: 'offsets', reads: 'lengths' },
  ],
  area: sizes => areaAlong(lineOf(sizes)).area,
  edge: sizes => edgeAlong(lineOf(sizes)),
  elasticities: sizes => {
    const { area, byWidth } = areaAlong(lineOf(sizes))
    return [1, ...byWidth.map(part => part.div(area.times(6)).toNumber())]
  },
  ownError: 0,
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
