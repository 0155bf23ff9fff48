import { siteExtras } from '../estimate/starter/starter-extras.ts'
import type { Bag, Bulk, Pack } from '../estimate/table/pack.ts'
import type { Extra, Finish, RateTable } from '../estimate/table/rate-table.ts'
import { type Tax, tax } from '../estimate/table/tax.ts'
import { startOf } from '../estimate/table/values.ts'

const both = (figure: string) => ({ lower: figure, upper: figure })
const between = (lower: string, upper: string) => ({ lower, upper })

/** The invented contractor's ways to buy, working rates, costs and tax, put into a table of its rates; all invented. */
export function withDemoCosts(table: RateTable): RateTable {
  return {
    ...table,
    finishes: table.finishes.map(finish => ({ ...finish, ...BUYING[finish.slug] })),
    extras: [...table.extras, ...siteExtras('us').map(priced)],
    labor: { ...table.labor, spread: between('0.7', '0.9'), trip: both('0.5'), setUp: both('0.25') },
    carriers: [
      { name: { en: 'the truck', es: 'la camioneta' }, volume: '2.5', payload: '1600' },
      { name: { en: 'the trailer', es: 'el remolque' }, volume: '3', payload: '2500' },
    ],
    people: [
      { name: 'Crew lead', come: '1', wage: '22', burden: null },
      { name: 'Helper', come: '1', wage: '16', burden: null },
    ],
    costs: {
      ...table.costs,
      wage: '19',
      burden: '0.25',
      overheadPerLaborHour: '4',
      truckPerJob: '8',
      truckPerTrip: '9',
    },
    floors: { ...table.floors, margin: '0.20', payPerLaborHour: '36' },
    tax: {
      ...(startOf(tax, 'us') as Tax),
      name: { en: 'Sales tax', es: 'Impuesto sobre las ventas' },
      prices: 'without',
      rate: '0.05',
      areas: [{ postcodes: ['69402'], rate: '0.055', second: null }],
      taxed: {
        upkeep: { finish: true, laying: true, extra: true, travel: true, other: true },
        new: { finish: false, laying: false, extra: false, travel: false, other: false },
      },
      rounded: 'bill',
      inRanges: true,
      onPurchases: '0.05',
      purchasesGivenBack: true,
    },
  }
}

const BUYING: Record<string, Partial<Finish>> = {
  'shredded-wood': { packs: [bag('3.90', '3.40'), bulk('26', '45')] },
  'dyed-wood': { packs: [bag('4.40', '3.80'), bulk('31', '45')] },
  'bark-nuggets': { packs: [bag('5.10', '4.60'), bulk('38', '45')] },
  'pine-straw': {
    baleCovers: '19',
    packs: [
      {
        ...bought('bale', 'Bale', 'Paca', [
          ['0', '6.50'],
          ['40', '5.75'],
        ]),
        kind: 'bale',
        covers: '19',
        weightWet: null,
        deep: '3',
        delivered: null,
      },
    ],
  },
  compost: { packs: [bag('4.60', '4.20'), bulk('28', '45')] },
  stone: {
    layers: [{ slug: 'fabric', depth: null }],
    layersOptional: true,
    packs: [
      {
        ...bought('ton', 'Ton', 'Tonelada', [
          ['0', '48'],
          ['5', '44'],
        ]),
        kind: 'weighed',
        density: '2600',
        least: '0.5',
        step: '0.25',
        delivered: { fee: '75', freeFrom: '10' },
      },
    ],
  },
}

function bag(each: string, from40: string): Bag {
  const prices: [string, string][] = [
    ['0', each],
    ['40', from40],
  ]
  return {
    ...bought('bag-2', 'Bag of 2 ft³', 'Bolsa de 2 ft³', prices),
    kind: 'bag',
    holds: '2',
    weightWet: null,
    delivered: null,
  }
}

function bulk(each: string, fee: string): Bulk {
  return {
    ...bought('bulk', 'Loose, by the yard', 'A granel, por yarda', [['0', each]]),
    kind: 'bulk',
    least: '1',
    step: '0.5',
    delivered: { fee, freeFrom: '8' },
  }
}

function bought(slug: string, en: string, es: string, prices: [string, string][]) {
  return {
    slug,
    name: { en, es },
    prices: prices.map(([from, each]) => ({ from, each })),
    least: '1',
    step: '1',
    collected: true,
  } satisfies Partial<Pack>
}

const RATES: Record<string, Pick<Extra, 'lower' | 'upper'> & Partial<Extra>> = {
  'weeds-heavy': between('0.45', '0.65'),
  'weeds-jungle': between('1.10', '1.50'),
  'old-out': { ...between('85', '110'), dumpFee: '18' },
  'fabric-out': between('0.40', '0.60'),
  fabric: {
    ...between('0.55', '0.80'),
    pricedBy: 'cost',
    waste: '0.05',
    packs: [
      {
        ...bought('roll', 'Roll of 4 × 100 ft', 'Rollo de 4 × 100 ft', [['0', '52']]),
        kind: 'roll',
        width: '4',
        length: '100',
        overlap: '0.5',
        strips: true,
        delivered: null,
      },
    ],
  },
}

function priced(extra: Omit<Extra, 'lower' | 'upper'>): Extra {
  return { ...extra, ...RATES[extra.slug]! }
}
