import { inverseNormal } from './normal.ts'
import { SOBOL_DIMENSIONS, sobolPoints } from './sobol.ts'

const BITS = 10

/** How many scenarios a ballpark is made of. */
export const DRAWS = 2 ** BITS

/** The draws of every scenario: bias (B), depthBias (H) and own (Z, one array per finish) normal, rate (U) even. */
export interface Draws {
  bias: Float64Array
  depthBias: Float64Array
  rate: Float64Array
  own: Float64Array[]
}

/** More finishes than this in one job share the last array of own draws. */
export const OWN_DRAWS = SOBOL_DIMENSIONS - 3

let made: Draws | undefined

/** The first 1,024 Sobol points, each moved half a step from the edge; made once, the same for everyone. */
export function draws(): Draws {
  made ??= makeDraws()
  return made
}

function makeDraws(): Draws {
  const [first, second, third, ...rest] = sobolPoints(BITS).map(points =>
    points.map(point => point + 1 / (2 * DRAWS)),
  )
  return {
    bias: first!.map(inverseNormal),
    depthBias: second!.map(inverseNormal),
    rate: third!,
    own: rest.map(points => points.map(inverseNormal)),
  }
}
