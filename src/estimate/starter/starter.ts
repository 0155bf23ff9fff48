import { finishStart } from '../table/complete-table.ts'
import { type Finish, type RateTable, rateFigures } from '../table/rate-table.ts'
import { startOf } from '../table/values.ts'
import { starterCautions } from './starter-cautions.ts'

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
  return { ...figures, units, currency, cautions: starterCautions(units) }
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
      ['fire', 'clearance', 'trunks', 'pile'],
    ),
    finish('dyed-wood', ['Dyed mulch', 'Mantillo teñido'], ['shreds', '#4a2e22'], usual, mulch, [
      'fire',
      'clearance',
      'trunks',
      'pile',
    ]),
    finish(
      'bark-nuggets',
      ['Pine bark nuggets', 'Corteza de pino en trozos'],
      ['chips', '#8c5a3a'],
      usual,
      mulch,
      ['clearance', 'trunks', 'pile'],
    ),
    {
      ...finish(
        'pine-straw',
        ['Pine straw', 'Paja de pino'],
        ['straw', '#b0763f'],
        usual,
        ['400', '237'],
        ['fire', 'clearance', 'trunks'],
      ),
      saleUnit: 'bale',
      ratesPer: 'sold',
      materialCostPer: 'sold',
      baleCovers: of(['20', '1.8']),
      soldDepth: of(['3', '7.5']),
    },
    finish(
      'compost',
      ['Compost', 'Composta'],
      ['dots', '#3b3028'],
      shallow,
      ['1350', '801'],
      ['clearance', 'trunks', 'pile'],
    ),
    {
      ...finish(
        'stone',
        ['Decorative stone', 'Piedra decorativa'],
        ['pebbles', '#9a958a'],
        stones,
        ['3120', '1851'],
        ['payload', 'trunks'],
      ),
      saleUnit: 'ton',
      ratesPer: 'sold',
      materialCostPer: 'sold',
      soldDensity: of(['2600', '1543']),
    },
  ]
}
