import { finishStart, tableStart } from '../table/complete-table.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'

type Units = RateTable['units']

/** A finish of the starter list, waiting for the owner's installed rates. */
export type StarterFinish = Omit<Finish, 'rates'>

/**
 * Start values for everything but the owner's handful of numbers: no finishes, no extras, no minimum, travel
 * anywhere at no charge. The errors of measuring, the layers lying, the shares planted and what slows the laying are
 * invented; the pace is the US Army's 30 in. Metric values are the same figures converted exactly, so that both systems
 * give one price.
 */
export function starterTable(units: Units, currency = units === 'us' ? 'USD' : 'EUR'): RateTable {
  const us = units === 'us'
  return {
    units,
    currency,
    finishes: [],
    extras: [],
    minimumCharge: '0',
    tiers: [],
    travel: [],
    measuring: {
      tape: { sigma: '0.02', rho: '0' },
      paces: { sigma: '0.08', rho: '0.8' },
      eye: { sigma: '0.14', rho: '0.5' },
    },
    pace: us ? '2.5' : '0.762',
    lying: us ? lyingInches : lyingCentimetres,
    lyingTold: us ? '0.25' : '0.635',
    lyingMeasured: us ? '0.1' : '0.254',
    planted: { open: '0', half: '0.15', full: '0.30' },
    thinnestTopUp: us ? '1' : '2.54',
    allowance: '0.05',
    promise: '0.80',
    step: '10',
    ...tableStart(units),
    labour: {
      ...tableStart(units).labour,
      spread: us ? both('0.75') : both('1'),
      carry: { free: us ? '50' : '15.24', each: us ? '50' : '15.24', adds: '0.15' },
      stair: '0.02',
      planted: { open: '1', half: '1.1', full: '1.25' },
    },
    cautions: starterCautions(us),
  }
}

function both(figure: string) {
  return { lower: figure, upper: figure }
}

const lyingInches: RateTable['lying'] = {
  bare: { m: '0', s: '0' },
  thin: { m: '0.5', s: '0.125' },
  fair: { m: '1', s: '0.25' },
  thick: { m: '2', s: '0.25' },
  unsure: { m: '1', s: '0.5' },
}

const lyingCentimetres: RateTable['lying'] = {
  bare: { m: '0', s: '0' },
  thin: { m: '1.27', s: '0.3175' },
  fair: { m: '2.54', s: '0.635' },
  thick: { m: '5.08', s: '0.635' },
  unsure: { m: '2.54', s: '1.27' },
}

function starterCautions(us: boolean): RateTable['cautions'] {
  const own = 'This business’s own setting'
  return [
    {
      code: 'depth-over',
      source: 'UF/IFAS Extension Polk County, Mulch, 2016; Alabama Cooperative Extension ANR-1359',
    },
    { code: 'depth-under', source: 'UF/IFAS Extension Polk County, Mulch, 2016' },
    { code: 'large-size', figure: us ? '300 ft' : '90 m', source: own },
    { code: 'postcode-not-served', source: own },
    { code: 'edge-unknown', source: own },
    { code: 'fire', figure: us ? '18 in' : '46 cm', source: 'Massachusetts 527 CMR 17' },
    { code: 'clearance', figure: us ? '6 in' : '15 cm', source: 'University of Florida, EDIS ENY-832' },
    { code: 'payload', source: 'CalRecycle, gravel loose and 20 % more when wet' },
    {
      code: 'digging',
      source: 'Ohio Revised Code 3781.25; Arkansas Code 14-271-109; Indiana Code 8-1-26-6',
    },
  ]
}

/**
 * Six common finishes. Depths in in|cm, wet weights in lb per yd³ | kg per m³; whose figures they are stands in
 * `starter-sources.ts`. Metric ones are the same, rounded.
 */
export function starterFinishes(units: Units): StarterFinish[] {
  return units === 'us' ? starterList(inches, poundsPerYard) : starterList(centimetres, kilosPerMetre)
}

type Depths = Record<'organic' | 'nuggets' | 'straw' | 'compost' | 'stone', Finish['depth']>
type Weights = Record<'mulch' | 'straw' | 'compost' | 'stone', string>

const inches: Depths = {
  organic: { least: '2', usual: '3', greatest: '4' },
  nuggets: { least: '2', usual: '3', greatest: '4' },
  straw: { least: '2', usual: '3', greatest: '4' },
  compost: { least: '1', usual: '2', greatest: '3' },
  stone: { least: '2', usual: '2', greatest: '4' },
}

const centimetres: Depths = {
  organic: { least: '5', usual: '7.5', greatest: '10' },
  nuggets: { least: '5', usual: '7.5', greatest: '10' },
  straw: { least: '5', usual: '7.5', greatest: '10' },
  compost: { least: '2.5', usual: '5', greatest: '7.5' },
  stone: { least: '5', usual: '5', greatest: '10' },
}

const poundsPerYard: Weights = { mulch: '1000', straw: '400', compost: '1350', stone: '3120' }
const kilosPerMetre: Weights = { mulch: '593', straw: '237', compost: '801', stone: '1851' }

function starterList(depth: Depths, weight: Weights): StarterFinish[] {
  const shared = finishStart
  return [
    {
      ...shared,
      slug: 'shredded-wood',
      name: { en: 'Shredded wood', es: 'Madera triturada' },
      depth: depth.organic,
      hatch: 'shreds',
      swatch: '#7a5a3c',
      densityWet: weight.mulch,
      cautions: ['fire', 'clearance'],
    },
    {
      ...shared,
      slug: 'dyed-wood',
      name: { en: 'Dyed wood', es: 'Madera teñida' },
      depth: depth.organic,
      hatch: 'shreds',
      swatch: '#4a2e22',
      densityWet: weight.mulch,
      cautions: ['fire', 'clearance'],
    },
    {
      ...shared,
      slug: 'bark-nuggets',
      name: { en: 'Bark nuggets', es: 'Corteza en trozos' },
      depth: depth.nuggets,
      hatch: 'chips',
      swatch: '#8c5a3a',
      densityWet: weight.mulch,
      cautions: ['clearance'],
    },
    {
      ...shared,
      slug: 'pine-straw',
      name: { en: 'Pine straw', es: 'Hojarasca de pino' },
      depth: depth.straw,
      hatch: 'straw',
      swatch: '#b0763f',
      densityWet: weight.straw,
      cautions: ['fire', 'clearance'],
    },
    {
      ...shared,
      slug: 'compost',
      name: { en: 'Compost', es: 'Composta' },
      depth: depth.compost,
      hatch: 'dots',
      swatch: '#3b3028',
      densityWet: weight.compost,
      cautions: ['clearance'],
    },
    {
      ...shared,
      slug: 'stone',
      name: { en: 'Stone', es: 'Piedra' },
      depth: depth.stone,
      hatch: 'pebbles',
      swatch: '#9a958a',
      densityWet: weight.stone,
      cautions: ['payload'],
    },
  ]
}
