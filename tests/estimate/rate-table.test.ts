import { describe, expect, it } from 'vitest'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { testTable, withTiers } from './jobs.ts'

function faultsOf(changes: Partial<RateTable>): string[] {
  const checked = rateTableSchema.safeParse({ ...testTable(), ...changes })
  return checked.success ? [] : checked.error.issues.map(issue => issue.path.join('.'))
}

describe('a rate table', () => {
  it('of start values passes in both systems, through JSON as it was', () => {
    for (const units of ['us', 'metric'] as const) {
      const table = withTiers(testTable({}, units), ['5', '10'], [0.9, 0.8])
      expect(rateTableSchema.parse(JSON.parse(JSON.stringify(table)))).toEqual(table)
    }
  })

  it('refuses a better way of measuring that is less certain, in its shared or its own part', () => {
    const { measuring } = testTable()
    expect(faultsOf({ measuring: { ...measuring, tape: { sigma: '0.2', rho: '0' } } })).toEqual([
      'measuring.tape',
    ])
    expect(faultsOf({ measuring: { ...measuring, paces: { sigma: '0.14', rho: '0.8' } } })).toEqual([
      'measuring.paces',
    ])
    expect(faultsOf({ measuring: { ...measuring, tape: { sigma: '0.04', rho: '0' } } })).toEqual([
      'measuring.tape',
    ])
  })

  it('refuses tiers out of order, and finishes without a pair of rates for each', () => {
    const tiered = withTiers(testTable(), ['5', '10'], [0.9, 0.8])
    expect(faultsOf({ ...tiered, tiers: ['10', '5'] })).toEqual(['tiers.1'])
    expect(faultsOf({ tiers: ['5'] })).toEqual(
      testTable().finishes.map((_, index) => `finishes.${index}.rates`),
    )
  })

  it('refuses a substitute that isn’t there, is the finish itself, or was named before', () => {
    const [first, ...rest] = testTable().finishes
    const substitutes = ['stone', 'gold', 'shredded-wood', 'compost', 'stone']
    expect(faultsOf({ finishes: [{ ...first!, substitutes }, ...rest] })).toEqual([
      'finishes.0.substitutes.1',
      'finishes.0.substitutes.2',
      'finishes.0.substitutes.4',
    ])
  })

  it('refuses finishes of which homeowners could pick none, and takes none at all', () => {
    const [first, second] = testTable().finishes
    const hidden = { ...first!, offered: false }
    const gone = { ...second!, soldOut: true }
    expect(faultsOf({ finishes: [hidden, gone] })).toEqual(['finishes.0.offered', 'finishes.1.soldOut'])
    expect(faultsOf({ finishes: [hidden, second!] })).toEqual([])
    expect(faultsOf({ finishes: [] })).toEqual([])
  })

  it('refuses rates the wrong way round, slugs used twice, and figures that aren’t', () => {
    const [first, ...rest] = testTable().finishes
    expect(faultsOf({ finishes: [{ ...first!, rates: [{ lower: '9', upper: '8' }] }, ...rest] })).toEqual([
      'finishes.0.rates.0.upper',
    ])
    expect(faultsOf({ finishes: [first!, first!] })).toEqual(['finishes.1.slug'])
    expect(faultsOf({ minimumCharge: '-1', step: '0', pace: '1e3', promise: '1' })).toEqual([
      'minimumCharge',
      'pace',
      'promise',
      'step',
    ])
  })
})
