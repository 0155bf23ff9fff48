import type { Extra, Finish, RateTable } from './rate-table.ts'

/** What a finish has until the owner says more: priced at installed rates, bought at one cost per volume, to be picked. */
export const finishStart = {
  photo: null,
  pricedBy: 'rate',
  materialCost: null,
  packs: [],
  pinned: null,
  densityDry: null,
  thinnestTopUp: null,
  allowance: null,
  materialShare: null,
  offered: true,
  soldOut: false,
  substitutes: [],
} satisfies Partial<Finish>

/** What an extra has until the owner says more: offered to homeowners, nothing to buy or to dump. */
export const extraStart = {
  group: null,
  offered: true,
  packs: [],
  pinned: null,
  fluffing: '1',
  dumpFee: '0',
} satisfies Partial<Extra>

/** What a table has until the owner says more: nothing that would change a price or an hour. */
export function tableStart(units: RateTable['units']) {
  const nothing = { lower: '0', upper: '0' }
  const us = units === 'us'
  return {
    labour: {
      spread: nothing,
      carry: { free: us ? '50' : '15', each: us ? '50' : '15', adds: '0' },
      stair: '0',
      planted: { open: '1', half: '1', full: '1' },
      trip: nothing,
      setUp: nothing,
    },
    carriers: [],
    costs: { crewHour: null, burden: '0', overheadPerCrewHour: '0', truckPerJob: '0', truckPerTrip: '0' },
    costPlus: { by: 'margin', share: '0.40' },
    floors: { margin: null, payPerCrewHour: null },
    tax: null,
  } satisfies Partial<RateTable>
}

/** A table as versions were stored before packs, labour and tax: one figure of crew hours for a volume and for an extra. */
interface Older {
  crewHoursPerVolume: string
  extras: (Omit<Extra, 'crewHours'> & { crewHours: string | Extra['crewHours'] })[]
}

/** A stored rate table of whatever age, with every section there; the figures that an older one gave stay as they were. */
export function completeTable(stored: RateTable | (RateTable & Older)): RateTable {
  const start = tableStart(stored.units)
  const both = (figure: string) => ({ lower: figure, upper: figure })
  const labour =
    'crewHoursPerVolume' in stored
      ? { ...start.labour, spread: both(stored.crewHoursPerVolume) }
      : stored.labour
  const { crewHoursPerVolume: _, ...table } = stored as RateTable & Older
  return {
    ...start,
    ...table,
    labour,
    costs: { ...start.costs, ...stored.costs },
    finishes: stored.finishes.map(finish => ({ ...finishStart, ...finish })),
    extras: (stored as Older).extras.map(extra => ({
      ...extraStart,
      ...extra,
      crewHours: typeof extra.crewHours === 'string' ? both(extra.crewHours) : extra.crewHours,
    })),
  }
}
