import type { Bed, BedTold, Job } from '../../src/estimate/job/bed.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { starterFinishes, starterTable } from '../../src/estimate/starter/starter.ts'
import { starterExtras } from '../../src/estimate/starter/starter-extras.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'

const rates: Record<string, [string, string]> = {
  'shredded-wood': ['80', '100'],
  'dyed-wood': ['90', '112'],
  'bark-nuggets': ['105', '130'],
  'pine-straw': ['70', '95'],
  compost: ['75', '90'],
  stone: ['150', '190'],
}

// Names of the tests' own, so that none hangs on what businesses start with.
const names: Record<string, { en: string; es: string }> = {
  'shredded-wood': { en: 'Shredded wood', es: 'Madera triturada' },
  'dyed-wood': { en: 'Dyed wood', es: 'Madera teñida' },
  'bark-nuggets': { en: 'Bark nuggets', es: 'Corteza en trozos' },
  'pine-straw': { en: 'Pine straw', es: 'Hojarasca de pino' },
  compost: { en: 'Compost', es: 'Composta' },
  stone: { en: 'Stone', es: 'Piedra' },
  edging: { en: 'Cut a fresh edge', es: 'Cortar un borde nuevo' },
  weeding: { en: 'Weed the beds first', es: 'Desyerbar antes' },
}

// What the tests expect was worked out by hand with rates by volume.
const BY_VOLUME = {
  saleUnit: 'volume',
  ratesPer: 'volume',
  materialCostPer: 'volume',
  baleCovers: null,
  soldDepth: null,
  soldDensity: null,
} as const

/** A rate table with every starter finish at invented rates and both starter extras. */
export function testTable(changes: Partial<RateTable> = {}, units: RateTable['units'] = 'us'): RateTable {
  const [edging, weeding] = starterExtras(units)
  return {
    ...starterTable(units),
    // What the tests expect was worked out by hand with each material fetched by itself.
    fetching: { together: 'each', mixed: false },
    finishes: starterFinishes(units).map(finish => {
      const [lower, upper] = rates[finish.slug]!
      return { ...finish, ...BY_VOLUME, name: names[finish.slug]!, rates: [{ lower, upper }] }
    }),
    extras: [
      { ...edging!, name: names.edging!, lower: '0.50', upper: '0.90' },
      { ...weeding!, name: names.weeding!, lower: '0.10', upper: '0.30' },
    ],
    ...changes,
  }
}

/** The same table with a second and a third column of rates, cheaper by these factors, from these sizes of job. */
export function withTiers(table: RateTable, tiers: string[], factors: number[]): RateTable {
  const column = ({ lower, upper }: { lower: string; upper: string }, factor: number) => ({
    lower: (Number(lower) * factor).toFixed(2),
    upper: (Number(upper) * factor).toFixed(2),
  })
  return {
    ...table,
    tiers,
    finishes: table.finishes.map(finish => ({
      ...finish,
      rates: [1, ...factors].map(factor => column(finish.rates[0]!, factor)),
    })),
  }
}

/** A 20 × 5 ft bed as sent, measured by tape, open and bare, 3 in of shredded wood. */
export function toldBed(changes: Partial<BedTold> = {}): BedTold {
  return {
    shape: 'rectangle',
    sizes: { length: '20', width: '5' },
    count: 1,
    measuredBy: 'tape',
    planted: 'open',
    lying: 'bare',
    finish: 'shredded-wood',
    depth: '3',
    ...changes,
  }
}

/** The job of these beds; fails the test when they can't be read. */
export function jobOf(
  beds: Partial<BedTold>[],
  table = testTable(),
  extras: string[] = [],
  postcode = '',
): Job {
  const reading = readTold({ beds: beds.map(toldBed), extras, postcode }, table)
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
  return reading.job
}

export function bedOf(changes: Partial<BedTold> = {}, table = testTable()): Bed {
  return jobOf([changes], table).beds[0]!
}
