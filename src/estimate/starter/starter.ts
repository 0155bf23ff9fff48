import { finishStart } from '../table/complete-table.ts'
import { type Finish, type RateTable, rateFigures } from '../table/rate-table.ts'
import { startOf } from '../table/values.ts'

type Units = RateTable['units']
type Pair = [us: string, metric: string]

/** A finish of the starter list, waiting for the owner's installed rates. */
export type StarterFinish = Omit<Finish, 'rates'>

/**
 * Start values for everything but the owner's handful of numbers: no finishes, no extras, no minimum, travel
 * anywhere at no charge. Metric values of lengths and depths are the same converted exactly; labor hours are round ones.
 */
export function starterTable(units: Units, currency = units === 'us' ? 'USD' : 'EUR'): RateTable {
  const figures = startOf(rateFigures, units) as RateTable
  return { ...figures, units, currency, cautions: starterCautions(units === 'us') }
}

function starterCautions(us: boolean): RateTable['cautions'] {
  const own = 'Our own rule'
  return [
    {
      code: 'depth-over',
      source: 'UF/IFAS Extension Polk County, Mulch, 2016; Alabama Cooperative Extension ANR-1359',
    },
    { code: 'depth-under', source: 'UF/IFAS Extension Polk County, Mulch, 2016' },
    { code: 'large-size', figure: us ? '300 ft' : '90 m', source: own },
    { code: 'postcode-not-served', source: own },
    { code: 'edge-unknown', source: own },
    { code: 'fire', figure: us ? '18 in' : '46 cm', source: 'Massachusetts fire code, 527 CMR 17' },
    { code: 'clearance', figure: us ? '6 in' : '15 cm', source: 'University of Florida, EDIS ENY-832' },
    { code: 'payload', source: 'CalRecycle: loose gravel, and 20% more when wet' },
    {
      code: 'digging',
      source: 'Ohio Revised Code 3781.25; Arkansas Code 14-271-109; Indiana Code 8-1-26-6',
    },
  ]
}

const usual: Pair[] = [
  ['2', '5'],
  ['3', '7.5'],
  ['4', '10'],
]
const shallow: Pair[] = [
  ['1', '2.5'],
  ['2', '5'],
  ['3', '7.5'],
]
const stones: Pair[] = [
  ['2', '5'],
  ['2', '5'],
  ['4', '10'],
]

/**
 * Six common finishes. Depths in in|cm, wet weights in lb per yd³ | kg per m³; whose figures they are stands in
 * `starter-sources.ts`. Metric ones are the same, rounded.
 */
export function starterFinishes(units: Units): StarterFinish[] {
  const of = ([us, metric]: Pair) => (units === 'us' ? us : metric)
  const finish = (
    slug: string,
    [en, es]: [en: string, es: string],
    [hatch, swatch]: [Finish['hatch'], string],
    [least, usual, greatest]: Pair[],
    wet: Pair,
    cautions: Finish['cautions'],
  ): StarterFinish => ({
    ...finishStart,
    slug,
    name: { en, es },
    depth: { least: of(least!), usual: of(usual!), greatest: of(greatest!) },
    hatch,
    swatch,
    densityWet: of(wet),
    cautions,
  })
  const mulch: Pair = ['1000', '593']
  return [
    finish(
      'shredded-wood',
      ['Shredded hardwood mulch', 'Mantillo de madera triturada'],
      ['shreds', '#7a5a3c'],
      usual,
      mulch,
      ['fire', 'clearance'],
    ),
    finish('dyed-wood', ['Dyed mulch', 'Mantillo teñido'], ['shreds', '#4a2e22'], usual, mulch, [
      'fire',
      'clearance',
    ]),
    finish(
      'bark-nuggets',
      ['Pine bark nuggets', 'Corteza de pino en trozos'],
      ['chips', '#8c5a3a'],
      usual,
      mulch,
      ['clearance'],
    ),
    {
      ...finish(
        'pine-straw',
        ['Pine straw', 'Paja de pino'],
        ['straw', '#b0763f'],
        usual,
        ['400', '237'],
        ['fire', 'clearance'],
      ),
      saleUnit: 'bale',
      ratesPer: 'sold',
      baleCovers: of(['20', '1.8']),
      soldDepth: of(['3', '7.5']),
    },
    finish('compost', ['Compost', 'Composta'], ['dots', '#3b3028'], shallow, ['1350', '801'], ['clearance']),
    {
      ...finish(
        'stone',
        ['Decorative stone', 'Piedra decorativa'],
        ['pebbles', '#9a958a'],
        stones,
        ['3120', '1851'],
        ['payload'],
      ),
      saleUnit: 'ton',
      ratesPer: 'sold',
      soldDensity: of(['2600', '1543']),
    },
  ]
}
