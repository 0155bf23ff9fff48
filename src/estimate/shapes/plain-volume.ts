import type { Shape } from './shape.ts'

// What it took last time, plants and all: neither what lies there nor the share planted changes it.
export const plainVolume: Shape = {
  sizes: [{ name: 'volume', reads: 'volume' }],
  area: ({ volume }, depth) => volume!.div(depth),
  edge: () => null,
  elasticities: () => [0],
  ownError: 0.05,
  impossible: () => null,
  outline: () => null,
}
