import { type AlongLine, areaAlong, edgeAlong, emptyAlong, outlineAlong } from './along-line.ts'
import type { Shape } from './shape.ts'
import type { Sizes } from './sizes.ts'
import { listOf } from './sizes.ts'

// A bed along a line, by its widths wherever they were taken, as at every bend.
export const unevenOffsets: Shape = {
  sizes: [
    { name: 'spacings', reads: 'lengths' },
    { name: 'offsets', reads: 'lengths' },
  ],
  area: sizes => areaAlong(lineOf(sizes)).area,
  edge: sizes => edgeAlong(lineOf(sizes)),
  elasticities: sizes => {
    const { area, byWidth, strips } = areaAlong(lineOf(sizes))
    return [...strips, ...byWidth].map(part => part.div(area.times(6)).toNumber())
  },
  ownError: 0,
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
