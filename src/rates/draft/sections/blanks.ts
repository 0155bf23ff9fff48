import type { Extra, Finish, RateTable } from '../../../estimate/table/rate-table.ts'

/** What a new finish has where there is none to start from. */
export function blankFinish(table: RateTable): Omit<Finish, 'slug' | 'name'> {
  const us = table.units === 'us'
  return {
    depth: us ? { least: '2', usual: '3', greatest: '4' } : { least: '5', usual: '7.5', greatest: '10' },
    hatch: 'shreds',
    swatch: '#7a5a3c',
    photo: null,
    pricedBy: 'rate',
    rates: ['0', ...table.tiers].map(() => ({ lower: '0', upper: '0' })),
    materialCost: null,
    packs: [],
    pinned: null,
    densityDry: null,
    densityWet: null,
    thinnestTopUp: null,
    allowance: null,
    materialShare: null,
    offered: true,
    soldOut: false,
    substitutes: [],
    cautions: [],
  }
}

/** What a new extra has where there is none to start from. */
export function blankExtra(): Omit<Extra, 'slug' | 'name'> {
  return {
    per: 'job',
    lower: '0',
    upper: '0',
    group: null,
    offered: false,
    crewHours: { lower: '0', upper: '0' },
    packs: [],
    pinned: null,
    fluffing: '1',
    dumpFee: '0',
    cautions: [],
  }
}
