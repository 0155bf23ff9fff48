import { expect, test } from 'vitest'
import { starterFinishes, starterTable } from '../../src/estimate/starter/starter.ts'
import { siteExtras, starterExtras } from '../../src/estimate/starter/starter-extras.ts'
import { inventedPrices } from '../../src/estimate/starter/starter-prices.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { findSection } from '../../src/rates/draft/sections-of.ts'
import { settledFigures, unconfirmedGroups } from '../../src/rates/start/start-figures.ts'

type Units = RateTable['units']

/** All of the starter list, with the invented prices. */
function wholeStart(units: Units): RateTable {
  const { rates, extras, minimumCharge } = inventedPrices(units)
  return rateTableSchema.parse({
    ...starterTable(units),
    finishes: starterFinishes(units).map(finish => ({ ...finish, rates: [rates[finish.slug]] })),
    extras: [
      ...starterExtras(units).map(extra => ({ ...extra, ...extras[extra.slug] })),
      ...siteExtras(units).map(extra => ({ ...extra, lower: '1', upper: '2' })),
    ],
    minimumCharge,
  })
}

const unconfirmed = (table: RateTable) => unconfirmedGroups(table).flatMap(({ figures }) => figures)
const keys = (table: RateTable) => unconfirmed(table).map(({ key }) => key)
const wordsOf = (table: RateTable) =>
  Object.fromEntries(unconfirmed(table).map(({ key, words, source }) => [key, `${words} | ${source.words}`]))

/** What no named source stands behind, by hand; depths in inches, and in centimetres at 2.54 to the inch. */
const INVENTED: Record<string, [us: string, metric: string]> = {
  'measuring.tape': [
    '2%, with 0% of that the same for every length',
    '2%, with 0% of that the same for every length',
  ],
  'measuring.paces': [
    '8%, with 80% of that the same for every length',
    '8%, with 80% of that the same for every length',
  ],
  'measuring.eye': [
    '14%, with 50% of that the same for every length',
    '14%, with 50% of that the same for every length',
  ],
  'lying.bare': ['none', 'none'],
  'lying.thin': ['0.5 in, give or take 0.125', '1.27 cm, give or take 0.3175'],
  'lying.fair': ['1 in, give or take 0.25', '2.54 cm, give or take 0.635'],
  'lying.thick': ['2 in, give or take 0.25', '5.08 cm, give or take 0.635'],
  'lying.unsure': ['1 in, give or take 0.5', '2.54 cm, give or take 1.27'],
  lyingTold: ['give or take 0.25 in', 'give or take 0.635 cm'],
  lyingMeasured: ['give or take 0.1 in', 'give or take 0.254 cm'],
  'planted.open': ['0%', '0%'],
  'planted.half': ['15%', '15%'],
  'planted.full': ['30%', '30%'],
  thinnestTopUp: ['1 in', '2.54 cm'],
  allowance: ['5%', '5%'],
  promise: ['80%', '80%'],
  step: ['$10', '€10'],
  'labour.planted.half': ['× 1.1', '× 1.1'],
  'labour.planted.full': ['× 1.25', '× 1.25'],
  'labour.carry': ['15%', '15%'],
  'labour.stair': ['2%', '2%'],
  minimumCharge: ['$175', '€160'],
  'labour.spread': ['0.75 h', '1 h'],
  'finish.stone.rates': ['$125 to $155 per ton', '€135 to €170 per tonne'],
  'extra.edging.price': ['$1.75 to $2.75 per foot of edge', '€5.50 to €8.50 per meter of edge'],
  'extra.edging.hours': ['0.02 h per foot of edge', '0.066 h per meter of edge'],
}

const COMMON: Record<string, [us: string, metric: string]> = {
  'finish.compost.depth': ['1 to 3 in, usually 2', '2.5 to 7.5 cm, usually 5'],
  'finish.stone.depth': ['2 to 4 in, usually 2', '5 to 10 cm, usually 5'],
  'finish.shredded-wood.weight': ['1,000 lb per cubic yard', '593 kg per cubic meter'],
  'finish.pine-straw.weight': ['400 lb per cubic yard', '237 kg per cubic meter'],
  'extra.old-out.fluffing': ['× 1.3', '× 1.3'],
}

test.each(['us', 'metric'] as const)(
  'what is invented or common practice is listed with its figure and says so, in %s',
  units => {
    const listed = wordsOf(wholeStart(units))
    const column = units === 'us' ? 0 : 1
    for (const [key, figures] of Object.entries(INVENTED))
      expect([key, listed[key]]).toEqual([key, `${figures[column]} | Invented, to start with`])
    for (const [key, figures] of Object.entries(COMMON))
      expect([key, listed[key]]).toEqual([key, `${figures[column]} | Common practice, no source`])
  },
)

test('beyond those it is the same of every finish and extra, nothing twice, and nothing with a named source', () => {
  const finishes = ['shredded-wood', 'dyed-wood', 'bark-nuggets', 'pine-straw', 'compost', 'stone']
  const extras = ['edging', 'weeding', 'weeds-heavy', 'weeds-jungle', 'old-out', 'fabric-out', 'fabric']
  const heavyBySomebody = ['compost', 'stone']
  const mulches = finishes.filter(slug => !heavyBySomebody.includes(slug))
  const expected = [
    ...Object.keys(INVENTED),
    ...Object.keys(COMMON),
    ...finishes.map(slug => `finish.${slug}.rates`),
    ...mulches.map(slug => `finish.${slug}.weight`),
    ...extras.map(slug => `extra.${slug}.hours`),
    'extra.weeding.price',
  ]
  const sourced = [
    'pace',
    ...mulches.map(slug => `finish.${slug}.depth`),
    ...heavyBySomebody.map(slug => `finish.${slug}.weight`),
  ]
  const neutral = extras
    .filter(slug => slug !== 'old-out')
    .flatMap(slug => [`extra.${slug}.fluffing`, `extra.${slug}.dumpFee`])
  for (const units of ['us', 'metric'] as const) {
    const listed = keys(wholeStart(units))
    expect(listed).toEqual(expect.arrayContaining(expected))
    expect(listed.filter((key, index) => listed.indexOf(key) !== index)).toEqual([])
    expect(listed.filter(key => [...sourced, ...neutral].includes(key))).toEqual([])
  }
})

test.each(['us', 'metric'] as const)(
  'each is changed in a section of the draft that is there, in %s',
  units => {
    const table = wholeStart(units)
    const lost = unconfirmed(table).filter(({ section }) => !findSection(table, section))
    expect(lost).toEqual([])
  },
)

test('what the owner set himself is not listed, however little it differs; written another way it still is', () => {
  const table = wholeStart('us')
  const [first, ...rest] = table.finishes
  const own: RateTable = {
    ...table,
    finishes: [{ ...first!, rates: [{ lower: '85', upper: '105.01' }] }, ...rest],
    allowance: '0.051',
    promise: '0.8000',
    measuring: { ...table.measuring, eye: { sigma: '0.14', rho: '0.51' } },
  }
  const gone = ['finish.shredded-wood.rates', 'measuring.eye', 'allowance']
  expect(keys(own)).toEqual(keys(table).filter(key => !gone.includes(key)))
})

test('a price is listed as long as it is invented for one size of job', () => {
  const table = wholeStart('us')
  const rated = (...rates: [string, string][]): RateTable => ({
    ...table,
    tiers: rates.slice(1).map((_, index) => String(5 + index)),
    finishes: [{ ...table.finishes[0]!, rates: rates.map(([lower, upper]) => ({ lower, upper })) }],
  })
  const key = 'finish.shredded-wood.rates'
  expect(wordsOf(rated(['90', '110'], ['85', '105']))[key]).toContain('$85 to $105')
  expect(keys(rated(['90', '110'], ['85', '100']))).not.toContain(key)
})

test('a finish priced by what it costs has no invented rate, but an invented margin', () => {
  const table = wholeStart('us')
  const [first, ...rest] = table.finishes
  const byCost: RateTable = { ...table, finishes: [{ ...first!, pricedBy: 'cost' }, ...rest] }
  expect(keys(byCost)).not.toContain('finish.shredded-wood.rates')
  expect(wordsOf(byCost)['costPlus.margin']).toBe('40% | Invented, to start with')
  expect(keys({ ...byCost, costPlus: { by: 'markup', share: '0.40' } })).not.toContain('costPlus.markup')
})

test('what the owner added himself started as nothing', () => {
  const table = wholeStart('us')
  const moss = { ...table.finishes[0]!, slug: 'moss', name: { en: 'Moss', es: 'Musgo' } }
  const own = { ...table, finishes: [...table.finishes, moss] }
  expect(keys(own)).toEqual(keys(table))
})

test('figures with a named source stand with it, and a figure of one’s own says that it is', () => {
  const table: RateTable = { ...wholeStart('us'), step: '25' }
  const sourceOf = (label: string) => settledFigures(table).find(one => one.label === label)
  expect(sourceOf('A pace')).toMatchObject({ figure: '2.5 ft', source: 'US Army: 30 in' })
  expect(sourceOf('Pine straw, depth')?.source).toContain('UF/IFAS Extension')
  expect(sourceOf('Decorative stone, weight when wet')).toMatchObject({ figure: '3,120 lb per cubic yard' })
  expect(sourceOf('Decorative stone, weight when wet')?.source).toContain('CalRecycle')
  expect(sourceOf('A size given as “20-25”')?.source).toBe('Invented, part of how ranges work')
  expect(sourceOf('Price ranges are rounded to')).toEqual({
    label: 'Price ranges are rounded to',
    figure: '$25',
    source: 'Your own figure',
  })
})
