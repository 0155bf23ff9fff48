import type { Shape } from './shape.ts'

// What it took last time, plants and all: neither what lies there nor the share planted changes it.
export const plainVolume: Shape = {
  offered: true,
  icon: [
    { path: 'M4 33C12 32 18 8 28 8S44 32 52 33Z' },
    { path: 'M20 26l4 -3M28 19l4 2M30 27l5 -1M26 13l3 1M38 29l4 1M13 30l4 -1', as: 'thin' },
  ],
  sizes: [{ name: 'volume', reads: 'volume' }],
  area: ({ volume }, depth) => volume!.div(depth),
  formula: ({ volume }, f) => `${f.volume(volume!)} spread as deep as told`,
  edge: () => null,
  elasticities: () => [0],
  formError: () => 0.05,
  impossible: () => null,
  outline: () => null,
}
