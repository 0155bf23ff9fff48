import fc from 'fast-check'
import type { BedTold } from '../../src/estimate/bed.ts'
import { toldBed } from './jobs.ts'

const length = (least: number, most: number) =>
  fc.integer({ min: least * 10, max: most * 10 }).map(tenths => (tenths / 10).toFixed(1))

const sides = fc.record({ length: length(3, 60), width: length(2, 20) })

/** Shapes with their sizes, in feet or in metres alike. */
export const shaped: fc.Arbitrary<Pick<BedTold, 'shape' | 'sizes'>> = fc.oneof(
  fc.record({ shape: fc.constantFrom('rectangle', 'strip', 'curvy', 'oval'), sizes: sides }),
  fc.record({ shape: fc.constant('circle'), sizes: fc.record({ diameter: length(3, 30) }) }),
  fc.record({
    shape: fc.constant('triangle'),
    sizes: fc.record({ base: length(3, 40), height: length(2, 20) }),
  }),
  fc.record({ shape: fc.constant('ring'), sizes: fc.record({ outer: length(6, 20), inner: length(1, 4) }) }),
  fc.record({ shape: fc.constant('circle-round'), sizes: fc.record({ round: length(8, 90) }) }),
  fc.record({ shape: fc.constant('half-circle'), sizes: fc.record({ diameter: length(3, 30) }) }),
  fc.record({ shape: fc.constant('quarter-circle'), sizes: fc.record({ radius: length(3, 20) }) }),
  fc.record({
    shape: fc.constant('sides'),
    sizes: fc.record({ a: length(14, 20), b: length(14, 20), c: length(11, 20) }),
  }),
  fc.record({
    shape: fc.constant('trapezoid'),
    sizes: fc.record({ base: length(3, 40), top: length(3, 40), height: length(2, 20) }),
  }),
  fc.record({
    shape: fc.constant('l-shape'),
    sizes: fc.record({
      length: length(10, 40),
      width: length(8, 20),
      cutLength: length(2, 9),
      cutWidth: length(2, 7),
    }),
  }),
  fc.record({ shape: fc.constant('area'), sizes: fc.record({ area: length(10, 800) }) }),
)

const slugs = ['shredded-wood', 'dyed-wood', 'bark-nuggets', 'pine-straw', 'compost', 'stone']

/** A bed as sent: any shape but a told volume, any way of measuring, anything lying there. */
export const anyBed: fc.Arbitrary<BedTold> = fc
  .record({
    shape: shaped,
    count: fc.oneof(fc.constant(1), fc.integer({ min: 1, max: 5 })),
    measuredBy: fc.constantFrom('tape', 'paces', 'eye'),
    planted: fc.constantFrom('open', 'half', 'full'),
    lying: fc.constantFrom('bare', 'thin', 'fair', 'thick', 'unsure', '0.5', '1.5'),
    finish: fc.constantFrom(...slugs),
    depth: fc.constantFrom('', '2', '3', '4'),
  })
  .map(({ shape, ...rest }) => toldBed({ ...rest, ...shape }))

export const anyVolume: fc.Arbitrary<BedTold> = fc
  .record({ volume: length(5, 200), finish: fc.constantFrom(...slugs) })
  .map(({ volume, finish }) => toldBed({ shape: 'volume', sizes: { volume }, finish }))

export const anyBeds = fc.array(
  fc.oneof({ weight: 9, arbitrary: anyBed }, { weight: 1, arbitrary: anyVolume }),
  {
    minLength: 1,
    maxLength: 10,
  },
)
