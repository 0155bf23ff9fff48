import { type RateTable, rateFigures, type Span } from '../table/rate-table.ts'
import { startOf } from '../table/values.ts'

type Units = RateTable['units']

/** Prices to start with: of finishes laid in the bed and of extras, by slug, and the two figures that go with them. */
export interface StarterPrices {
  /** Per yd³|m³, or per bale or ton where the starter list sells by these. */
  rates: Record<string, Span>
  /** Of what is sold by the bale or the ton, what it was per yd³|m³ while the starter list didn't. */
  ratesByVolume: Record<string, Span>
  /** Per ft|m of edge or per ft²|m², as the extra is counted. */
  extras: Record<string, Span>
  minimumCharge: string
  /** Per yd³|m³, of one person. */
  laborHoursPerVolume: string
}

/**
 * Prices for whoever has none of his own yet. Every one is invented, for no place and no currency; those for meters are
 * round figures of their own, not the others converted.
 */
export function inventedPrices(units: Units): StarterPrices {
  const { minimumCharge, labor } = startOf(rateFigures, units, true) as RateTable
  const lists = units === 'us' ? inventedPerYard : inventedPerMetre
  return { ...lists, minimumCharge, laborHoursPerVolume: labor.spread.lower }
}

const inventedPerYard: Pick<StarterPrices, 'rates' | 'ratesByVolume' | 'extras'> = {
  rates: {
    'shredded-wood': { lower: '85', upper: '105' },
    'dyed-wood': { lower: '95', upper: '115' },
    'bark-nuggets': { lower: '105', upper: '135' },
    'pine-straw': { lower: '12', upper: '16' },
    compost: { lower: '80', upper: '100' },
    stone: { lower: '125', upper: '155' },
  },
  ratesByVolume: { 'pine-straw': { lower: '65', upper: '85' }, stone: { lower: '160', upper: '200' } },
  extras: {
    edging: { lower: '1.75', upper: '2.75' },
    weeding: { lower: '0.20', upper: '0.35' },
  },
}

const inventedPerMetre: Pick<StarterPrices, 'rates' | 'ratesByVolume' | 'extras'> = {
  rates: {
    'shredded-wood': { lower: '110', upper: '140' },
    'dyed-wood': { lower: '125', upper: '155' },
    'bark-nuggets': { lower: '140', upper: '180' },
    'pine-straw': { lower: '12', upper: '15.50' },
    compost: { lower: '105', upper: '130' },
    stone: { lower: '135', upper: '170' },
  },
  ratesByVolume: { 'pine-straw': { lower: '90', upper: '115' }, stone: { lower: '210', upper: '260' } },
  extras: {
    edging: { lower: '5.50', upper: '8.50' },
    weeding: { lower: '2.20', upper: '3.80' },
  },
}
