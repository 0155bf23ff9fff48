import { inverseNormal } from './normal.ts'
import { SOBOL_DIMENSIONS, sobolPoints } from './sobol.ts'

const BITS = 10

/** How many scenarios a ballpark is made of. */
export const SCENARIOS = 2 ** BITS

/** The points of so many scenarios: bias (B), depthBias (H) and own (Z, one array per finish) normal, rate (U) even. */
export interface Points {
  count: number
  bias: Float64Array
  depthBias: Float64Array
  rate: Float64Array
  own: Float64Array[]
}

/** More finishes than this in one job share the last array of own points. */
export const OWN_POINTS = SOBOL_DIMENSIONS - 3

let made: Points | undefined

/** The first 1,024 Sobol points, each moved half a step from the edge; made once, the same for everyone. */
export function points(): Points {
  made ??= makePoints()
  return made
}

/** Those of some scenarios alone. */
export function pointsOf(scenarios: Uint16Array, { bias, depthBias, rate, own }: Points): Points {
  const only = (points: Float64Array) => Float64Array.from(scenarios, scenario => points[scenario]!)
  return {
    count: scenarios.length,
    bias: only(bias),
    depthBias: only(depthBias),
    rate: only(rate),
    own: own.map(only),
  }
}

function makePoints(): Points {
  const [first, second, third, ...rest] = sobolPoints(BITS).map(points =>
    points.map(point => point + 1 / (2 * SCENARIOS)),
  )
  return {
    count: SCENARIOS,
    bias: first!.map(inverseNormal),
    depthBias: second!.map(inverseNormal),
    rate: third!,
    own: rest.map(points => points.map(inverseNormal)),
  }
}
