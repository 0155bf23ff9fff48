import fc from 'fast-check'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { testTable, toldBed } from './jobs.ts'

const table = testTable()

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
  fc.record({
    shape: fc.constant('tree-ring'),
    sizes: fc.record({ inner: length(1, 16), band: length(1, 6) }),
  }),
  fc.record({
    shape: fc.constant('two-arms'),
    sizes: fc.record({
      length: length(10, 40),
      width: length(2, 20),
      armLength: length(2, 30),
      armWidth: length(2, 9),
    }),
  }),
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

const spaced = (figures: string[]) => figures.join(' ')
const widths = (least: number, most: number) => fc.array(length(2, 12), { minLength: least, maxLength: most })

/** Shapes by lists of sizes, with spaces between. */
export const listed: fc.Arbitrary<Pick<BedTold, 'shape' | 'sizes'>> = fc.oneof(
  fc.record({
    shape: fc.constant('offsets'),
    sizes: fc.record({ spacing: length(2, 10), offsets: widths(3, 9).map(spaced) }),
  }),
  widths(3, 9).chain(list =>
    fc.record({
      shape: fc.constant('uneven-offsets'),
      sizes: fc.record({
        spacings: fc
          .array(fc.constantFrom('2.0', '4.0', '5.5'), {
            minLength: list.length - 1,
            maxLength: list.length - 1,
          })
          .map(spaced),
        offsets: fc.constant(spaced(list)),
      }),
    }),
  ),
  fc.record({ shape: fc.constant('radii'), sizes: fc.record({ radii: widths(8, 12).map(spaced) }) }),
)

/** The same sizes with every figure of them changed, of a list each. */
export function changeSizes(
  sizes: Record<string, string>,
  change: (figure: string, name: string) => string,
): Record<string, string> {
  const changed = Object.entries(sizes).map(([name, typed]) => [
    name,
    // A volume has its unit with it.
    name === 'volume'
      ? `${change(typed.replace(' cu ft', ''), name)} cu ft`
      : typed
          .split(' ')
          .map(figure => change(figure, name))
          .join('; '),
  ])
  return Object.fromEntries(changed)
}

const slugs = ['shredded-wood', 'dyed-wood', 'bark-nuggets', 'pine-straw', 'compost', 'stone']

const cutOut = fc
  .tuple(
    fc.constantFrom('', '2 of ', '3 of '),
    fc.oneof(
      fc.tuple(length(1, 6), length(1, 4)).map(([one, other]) => `${one} x ${other} ft`),
      length(1, 6).map(across => `${across} ft across`),
      length(1, 20).map(area => `${area} sq ft`),
    ),
  )
  .map(([many, one]) => many + one)
const cutOuts = fc.array(cutOut, { minLength: 1, maxLength: 3 }).map(parts => parts.join('; '))

/** What else may be said of a bed: mostly nothing. */
const more: fc.Arbitrary<Partial<BedTold>> = fc.oneof(
  { weight: 3, arbitrary: fc.constant({}) },
  {
    weight: 2,
    arbitrary: fc.record(
      {
        work: fc.constantFrom('new', 'top-up'),
        cutOuts,
        noEdge: length(1, 3).map(figure => `${figure} ft`),
        carry: length(0, 300).map(figure => `${figure} ft`),
        stairs: fc.nat(30).map(String),
      },
      { requiredKeys: [] },
    ),
  },
)

/** Keeps of it what this bed can have: cut-outs that leave enough of it, an edge to leave out where there is one. */
function withMore(bed: BedTold, { cutOuts: cut, noEdge, ...rest }: Partial<BedTold>): BedTold {
  const fits = cut !== undefined && readTold({ beds: [{ ...bed, cutOuts: cut }] }, table).ok
  return {
    ...bed,
    ...rest,
    ...(cut && fits ? { cutOuts: cut } : {}),
    ...(noEdge && bed.shape !== 'area' ? { noEdge } : {}),
  }
}

/** A bed as sent: any shape but a told volume, any way of measuring, anything lying there. */
export const anyBed: fc.Arbitrary<BedTold> = fc
  .record({
    shape: fc.oneof({ weight: 4, arbitrary: shaped }, { weight: 1, arbitrary: listed }),
    count: fc.oneof(fc.constant(1), fc.integer({ min: 1, max: 5 })),
    measuredBy: fc.constantFrom('tape', 'paces', 'eye'),
    planted: fc.constantFrom('open', 'half', 'full'),
    lying: fc.constantFrom('bare', 'thin', 'fair', 'thick', 'unsure', '0.5', '1.5'),
    finish: fc.constantFrom(...slugs),
    depth: fc.constantFrom('', '2', '3', '4'),
    more,
  })
  .map(({ shape, more: besides, ...rest }) => ({
    bed: toldBed({ ...rest, ...byTape(rest, shape), ...shape }),
    besides,
  }))
  // What is too uncertain is refused.
  .filter(({ bed }) => readTold({ beds: [bed] }, table).ok)
  .map(({ bed, besides }) => withMore(bed, besides))

// Three sides are told by tape alone.
function byTape({ measuredBy }: Pick<BedTold, 'measuredBy'>, { shape }: Pick<BedTold, 'shape'>) {
  return { measuredBy: shape === 'sides' ? 'tape' : measuredBy }
}

export const anyVolume: fc.Arbitrary<BedTold> = fc
  .record({ volume: length(5, 200), finish: fc.constantFrom(...slugs) })
  .map(({ volume, finish }) => toldBed({ shape: 'volume', sizes: { volume: `${volume} cu ft` }, finish }))

export const anyBeds = fc.array(
  fc.oneof({ weight: 9, arbitrary: anyBed }, { weight: 1, arbitrary: anyVolume }),
  {
    minLength: 1,
    maxLength: 10,
  },
)
