import fc from 'fast-check'
import type { BedTold, Job } from '../../src/estimate/job/bed.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { jobOf, testTable, withTiers } from './jobs.ts'
import { anyFetching, anyPacks, anyWork } from './packs/generated.ts'
import { bag, bulk } from './packs/made.ts'

const truck = { name: { en: 'truck', es: 'camión' }, volume: '2.5', payload: '1800' }

/**
 * A table whose shredded wood is bought in bags or in bulk with breaks, and whose stone by a cost per volume; both are
 * priced by cost at a margin of 40 %. All figures are invented.
 */
export function costTable(changes: Partial<RateTable> = {}): RateTable {
  const table = testTable(changes)
  const { labor } = table
  const packs = [
    bag({
      prices: [
        { from: '0', each: '4.20' },
        { from: '40', each: '3.60' },
      ],
    }),
    bulk({ least: '3', collected: true, delivered: { fee: '65', freeFrom: '10' } }),
  ]
  return {
    ...table,
    finishes: table.finishes.map(finish => {
      if (finish.slug === 'shredded-wood') return { ...finish, pricedBy: 'cost', packs }
      if (finish.slug === 'stone') return { ...finish, pricedBy: 'cost', materialCost: '55' }
      return finish
    }),
    carriers: [truck],
    labor: {
      ...labor,
      spread: { lower: '0.6', upper: '0.9' },
      carry: { free: '50', each: '50', adds: '0.2' },
      stair: '0.05',
      planted: { open: '1', half: '1.2', full: '1.5' },
      trip: { lower: '0.5', upper: '1' },
      setUp: { lower: '0.25', upper: '0.75' },
    },
    costs: {
      ...table.costs,
      wage: '24',
      burden: '0.25',
      overheadPerLaborHour: '8',
      truckPerJob: '10',
      truckPerTrip: '6',
    },
    ...changes,
  }
}

/** Tables with shredded wood, and mostly stone and compost, priced by cost, generated packs and work, tiers or none. */
export const anyCostTable: fc.Arbitrary<RateTable> = fc
  .tuple(anyPacks, anyWork, anyFetching, fc.boolean(), fc.constantFrom('0', '75'), fc.boolean(), anyPacks)
  .map(([packs, work, fetching, stoneToo, minimumCharge, tiers, compostPacks]) => {
    const table = testTable({ ...work, fetching, minimumCharge, step: '0.01' })
    const priced = {
      ...table,
      finishes: table.finishes.map(finish => {
        if (finish.slug === 'shredded-wood') return { ...finish, pricedBy: 'cost' as const, packs }
        if (finish.slug === 'compost' && stoneToo)
          return { ...finish, pricedBy: 'cost' as const, packs: compostPacks }
        if (finish.slug === 'stone' && stoneToo)
          return { ...finish, pricedBy: 'cost' as const, materialCost: '48.5' }
        return finish
      }),
    }
    return tiers ? withTiers(priced, ['2', '6'], [0.85, 0.7]) : priced
  })

/** How far a bed is from the heap, in ft, and how many stairs are on the way: told on site only. */
export const anyWay = fc.record({
  carry: fc.constantFrom(0, 50, 120, 400),
  stairs: fc.constantFrom(0, 0, 3, 12),
})

/** A job whose beds are each as far from the heap as told. */
export function jobAway(
  beds: BedTold[],
  ways: { carry: number; stairs: number }[],
  table: RateTable,
  extras: string[] = [],
): Job {
  const job = jobOf(beds, table, extras)
  return {
    ...job,
    beds: job.beds.map((bed, index) => {
      const { carry, stairs } = ways[index % ways.length]!
      return { ...bed, carry: new Decimal(carry), stairs }
    }),
  }
}
