import fc from 'fast-check'
import type { ExtraPack, Pack } from '../../../src/estimate/table/pack.ts'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../../src/estimate/table/rate-table-schema.ts'
import { testTable, withTiers } from '../../estimate/jobs.ts'
import { taxOf } from '../../estimate/taxes.ts'

const both = { collected: true, delivered: { fee: '45', freeFrom: '6' } }
const bought = { least: '0', step: '1', ...both }
const known = { baleCovers: '20', soldDepth: '3', soldDensity: '2600', densityDry: '700', allowance: '0.08' }
const once = [{ from: '0', each: '5.50' }]
const rolled = { width: '4', length: '100', overlap: '0.5', strips: true }
const baled = { weightWet: null, covers: '45', deep: '3', prices: once }
const beneath = (slug: string, depth: string | null) => ({ slug, depth })
const name = (en: string, es = en) => ({ en, es })

const packs: Pack[] = [
  {
    ...bought,
    kind: 'bag',
    slug: 'bag-2',
    name: name('Bag', 'Bolsa'),
    holds: '2',
    weightWet: '70',
    prices: [
      { from: '0', each: '4.20' },
      { from: '50', each: '3.90' },
    ],
  },
  { ...bought, ...baled, kind: 'bale', slug: 'bale', name: name('Bale', 'Paca') },
  { ...bought, kind: 'bulk', slug: 'bulk', name: name('Bulk', 'A granel'), prices: once },
  { ...bought, kind: 'weighed', slug: 'ton', name: name('Ton', 'Tonelada'), density: '2600', prices: once },
]
const extraPacks: ExtraPack[] = [
  { ...bought, ...rolled, kind: 'roll', slug: 'roll', name: name('Roll', 'Rollo'), prices: once },
  {
    ...bought,
    kind: 'piece',
    slug: 'piece',
    name: name('Piece', 'Pieza'),
    length: '8',
    stakes: '3',
    stakeEach: '0.40',
    prices: once,
  },
]

/** A rate table that has everything a rate table can have: no figure of it is left open, no list empty. */
export function fullTable(): RateTable {
  const table = withTiers(testTable(), ['5', '10'], [0.9, 0.8])
  const [first, ...finishes] = table.finishes
  const [edging, ...extras] = table.extras
  const kinds = { finish: true, laying: false, extra: true, travel: false, other: true }
  return rateTableSchema.parse({
    ...table,
    finishes: [
      {
        ...first!,
        photo: '0123456789abcdef'.repeat(4),
        materialCost: '28.50',
        packs,
        pinned: 'bag-2:collected',
        ...known,
        thinnestTopUp: '0.75',
        materialShare: '0.55',
        substitutes: ['pine-straw', 'stone'],
        layers: [beneath('compost', '2'), beneath('weeding', null)],
      },
      ...finishes,
    ],
    extras: [
      {
        ...edging!,
        group: 'edges',
        materialCost: '1.30',
        waste: '0.1',
        laborHours: { lower: '0.015', upper: '0.025' },
        packs: extraPacks,
        pinned: 'roll:delivered',
        fluffing: '1.3',
        dumpFee: '12',
      },
      ...extras,
    ],
    travel: [
      { postcodes: ['01234', 'SW1A 2AA', '787*'], charge: '25', drive: '1.25', driven: '40' },
      { postcodes: ['01235'], charge: '40.50', drive: null, driven: null },
    ],
    carriers: [
      { name: name('Truck', 'Camión'), volume: '10', payload: '4000' },
      { name: name('Trailer', 'Remolque'), volume: '6', payload: '1500' },
    ],
    people: [
      { name: 'Foreman', come: '1', wage: '28.50', burden: '0.2' },
      { name: 'Helper', come: '2', wage: '19', burden: null },
    ],
    costs: {
      wage: '24',
      burden: '0.15',
      overheadPerLaborHour: '6',
      truckPerJob: '15',
      truckPerTrip: '9.50',
      truckBy: 'distance',
      truckEach: '0.70',
      overheadShare: '0.05',
    },
    floors: { margin: '0.30', payPerLaborHour: '45' },
    tax: taxOf({
      name: name('Sales tax', 'Impuesto'),
      rate: '0.0825',
      areas: [{ postcodes: ['06001', '7870*'], rate: '0.07', second: '0.0125' }],
      taxed: { upkeep: kinds, new: { ...kinds, travel: true } },
      newWork: { rate: '0.02', name: name('Excise', 'Contratista'), certificate: true, asked: true },
      second: { rate: '0.015', newRate: '0', name: name('City tax', 'Impuesto municipal') },
      onPurchases: '0.0825',
      onPurchasesNew: '0.06',
    }),
  } satisfies RateTable)
}

/** Texts of every kind: of any script, that look like formulas, numbers or dates, with marks and line breaks in them. */
const anyText = (most: number) =>
  fc
    .oneof(
      fc.string({ unit: 'binary', minLength: 1, maxLength: most }),
      fc.constantFrom(
        '=1+1',
        '+1',
        '-1',
        '@a',
        "'tis",
        "''",
        "'=1",
        '01234',
        '1e5',
        'mar-1',
        'TRUE',
        'Café, 5"',
      ),
      fc
        .array(fc.constantFrom(...'=+-@\';,\t\r\n" a0＝'), { minLength: 1, maxLength: most })
        .map(parts => parts.join('')),
    )
    .map(text => text.replaceAll('\0', '').trim().slice(0, most).trim())
    .filter(text => text.length > 0 && text.isWellFormed())

const anyName = fc.record({ en: anyText(60), es: anyText(60) })
const anySlugs = fc.uniqueArray(
  fc.oneof(fc.stringMatching(/^[a-z0-9]{1,8}(-[a-z0-9]{1,4})?$/), fc.constantFrom('may-2', '1e5', '007')),
  { minLength: 0, maxLength: 4 },
)
const anyFigure = (least: number, greatest: number) =>
  fc
    .tuple(fc.integer({ min: least * 1000, max: greatest * 1000 }), fc.constantFrom('', '0', '00'))
    .map(([thousandths, more]) => `${(thousandths / 1000).toFixed(3)}${more}`)
const anySpan = fc.tuple(anyFigure(0, 500), anyFigure(0, 500)).map(two => {
  const [lower, upper] = two.sort((a, b) => Number(a) - Number(b))
  return { lower: lower!, upper: upper! }
})
const ascending = (values: string[]) => [...new Set(values.map(Number))].sort((a, b) => a - b).map(String)
const anyPacks = <P extends Pack | ExtraPack>(kinds: P[]) =>
  anySlugs.chain(slugs =>
    fc.tuple(
      ...slugs.map(slug =>
        fc
          .record({
            kind: fc.constantFrom(...kinds),
            name: anyName,
            collected: fc.boolean(),
            delivered: fc.record({ fee: anyFigure(0, 90), freeFrom: fc.option(anyFigure(0, 90)) }),
            notBrought: fc.boolean(),
            more: fc.array(anyFigure(1, 90), { maxLength: 3 }),
            each: anyFigure(1, 90),
          })
          .map(({ kind, name, collected, delivered, notBrought, more, each }) => ({
            ...kind,
            slug,
            name,
            collected,
            delivered: collected && notBrought ? null : delivered,
            prices: ['0', ...ascending(more)].map(from => ({ from, each })),
          })),
      ),
    ),
  )
const anyPostcodes = fc.array(fc.oneof(anyText(12), fc.stringMatching(/^0\d{4}$/)), {
  minLength: 1,
  maxLength: 4,
})

/** Tables with any finishes, extras, packs, price breaks, sizes of job, zones and taxes, and any texts in them. */
export const anyTable: fc.Arbitrary<RateTable> = fc
  .record({
    slugs: anySlugs,
    extraSlugs: anySlugs,
    tiers: fc.array(anyFigure(1, 50), { maxLength: 3 }).map(ascending),
    names: fc.array(anyName, { minLength: 8, maxLength: 8 }),
    packs: anyPacks(packs),
    extraPacks: anyPacks(extraPacks),
    span: anySpan,
    postcodes: fc.array(anyPostcodes, { maxLength: 3 }),
    charge: anyFigure(0, 90),
    taxed: fc.boolean(),
    source: fc.oneof(
      fc.constant(''),
      fc.tuple(fc.constantFrom(' ', '\t', ';', '\r\n'), anyText(30)).map(parts => parts.join('')),
    ),
    figure: fc.option(fc.oneof(fc.constant(''), anyText(9)), { nil: undefined }),
    carriers: fc.array(anyName, { maxLength: 3 }),
  })
  .map(any => {
    const full = fullTable()
    const [drive, driven] = any.figure === undefined ? [null, null] : ['1.25', any.charge]
    const zones = any.postcodes.map(postcodes => ({ postcodes, charge: any.charge, drive, driven }))
    const people = [...new Set(any.carriers.map(({ en }) => en))]
    const areas = any.postcodes.map(postcodes => ({ postcodes, rate: '0.06', second: null }))
    const caution = any.figure === undefined ? {} : { figure: any.figure }
    return rateTableSchema.parse({
      ...full,
      tiers: any.tiers,
      finishes: any.slugs.map((slug, index) => ({
        ...full.finishes[index % 6],
        slug,
        name: any.names[index],
        packs: index % 2 ? [] : any.packs,
        pinned: null,
        offered: index !== 1,
        soldOut: index === 2,
        substitutes: any.slugs.filter(other => other !== slug).reverse(),
        layers: index > 0 ? [beneath(any.slugs[0]!, null)] : [],
        rates: ['0', ...any.tiers].map(() => any.span),
      })),
      extras: any.extraSlugs.map((slug, index) => ({
        ...full.extras[0],
        ...any.span,
        slug,
        name: any.names[index + 4],
        packs: index % 2 ? any.extraPacks : [],
        pinned: null,
      })),
      travel: zones,
      carriers: any.carriers.map(name => ({ name, volume: '10', payload: null })),
      people: people.map(name => ({ name, come: '1.5', wage: any.charge, burden: drive && '0.2' })),
      tax: any.taxed ? { ...full.tax, areas } : null,
      cautions: [...full.cautions, { ...full.cautions[0], source: any.source, ...caution }],
    })
  })
