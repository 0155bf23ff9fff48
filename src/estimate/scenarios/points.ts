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

/** The points of some scenarios alone. */
export function pointsOf(scenarios: Uint16Array, { bias, depthBias, rate, own }: Points): Points {
  return {
    count: scenarios.length,
    bias: valuesOf(scenarios, bias),
    depthBias: valuesOf(scenarios, depthBias),
    rate: valuesOf(scenarios, rate),
    own: own.map(points => valuesOf(scenarios, points)),
  }
}

/** What is known of every scenario, of some alone. */
export function valuesOf(scenarios: Uint16Array, all: Float64Array): Float64Array {
  const values = new Float64Array(scenarios.length)
  for (let index = 0; index < values.length; index++) values[index] = all[scenarios[index]!]!
  return values
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
