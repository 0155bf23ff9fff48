import type { Pack } from '../../../src/estimate/table/pack.ts'
import type { Carrier, Finish, RateTable } from '../../../src/estimate/table/rate-table.ts'

// Tries every purchase, one by one, and shares no code with the estimate. In US units and without tax on purchases.

interface Tried {
  goods: number
  loose: number
  packed: number
}

/** The least that so many yd³ of every finish come to with their trips, in money. */
export function leastByTrying(
  needs: number[],
  finishes: Finish[],
  tripCost: number,
  table: RateTable,
): number {
  const all = needs.map((need, index) => allPurchases(need, finishes[index]!, table))
  let least = Number.POSITIVE_INFINITY
  const picked: Tried[] = []
  const from = (index: number) => {
    if (index === all.length) {
      const goods = picked.reduce((sum, one) => sum + one.goods, 0)
      least = Math.min(least, goods + tripCost * tripsByHand(picked, finishes, table))
      return
    }
    for (const one of all[index]!) {
      picked[index] = one
      from(index + 1)
    }
  }
  from(0)
  return least
}

function allPurchases(need: number, finish: Finish, table: RateTable): Tried[] {
  if (need === 0) return [{ goods: 0, loose: 0, packed: 0 }]
  const ways = finish.packs.flatMap(pack =>
    [false, true].flatMap(delivered =>
      (delivered ? pack.delivered !== null : pack.collected) ? [{ pack, delivered }] : [],
    ),
  )
  const isLoose = ({ kind }: Pack) => kind === 'bulk' || kind === 'weighed'
  const found: Tried[] = []
  for (const way of ways)
    for (const units of countsOf(way.pack, need))
      if (units * holds(way.pack) >= need - 1e-9) found.push(tried([[way, units]]))
  if (table.fetching.mixed)
    for (const loose of ways.filter(({ pack }) => isLoose(pack)))
      for (const bags of ways.filter(({ pack }) => !isLoose(pack)))
        for (const heap of countsOf(loose.pack, need))
          for (const count of countsOf(bags.pack, need))
            if (heap * holds(loose.pack) + count * holds(bags.pack) >= need - 1e-9)
              found.push(
                tried([
                  [loose, heap],
                  [bags, count],
                ]),
              )
  // What costs no less and takes no less room than another can't be the only best.
  return found.filter(
    (one, at) =>
      !found.some(
        (other, index) =>
          index !== at &&
          other.goods <= one.goods &&
          other.loose <= one.loose &&
          other.packed <= one.packed &&
          (index < at || other.goods < one.goods || other.loose < one.loose || other.packed < one.packed),
      ),
  )

  function tried(parts: [{ pack: Pack; delivered: boolean }, number][]): Tried {
    const sum: Tried = { goods: 0, loose: 0, packed: 0 }
    for (const [{ pack, delivered }, units] of parts) {
      const each = Number(pack.prices.filter(({ from }) => units >= Number(from)).at(-1)!.each)
      const free = pack.delivered?.freeFrom
      const fee = delivered && !(free && units >= Number(free)) ? Number(pack.delivered!.fee) : 0
      sum.goods += Math.round(units * each * 100) / 100 + fee
      if (!delivered) sum[isLoose(pack) ? 'loose' : 'packed'] += units * holds(pack)
    }
    return sum
  }
}

// From the least order, step by step, as far as more could do any good.
function countsOf(pack: Pack, need: number): number[] {
  const step = Number(pack.step)
  const most =
    Math.max(
      need / holds(pack),
      ...pack.prices.map(({ from }) => Number(from)),
      Number(pack.delivered?.freeFrom ?? 0),
      Number(pack.least),
    ) + step
  const counts: number[] = []
  for (let units = step; units <= most; units += step) if (units >= Number(pack.least)) counts.push(units)
  return counts
}

function holds(pack: Pack): number {
  switch (pack.kind) {
    case 'bag':
      return Number(pack.holds) / 27
    case 'bale':
      return (Number(pack.covers) * Number(pack.deep)) / 12 / 27
    case 'bulk':
      return 1
    case 'weighed':
      return 2000 / Number(pack.density)
    default:
      return pack satisfies never
  }
}

/** By one carrier at most: as many as its bed and its payload ask for. */
function tripsByHand(picked: Tried[], finishes: Finish[], { carriers, fetching }: RateTable): number {
  const volumes = picked.map(({ loose, packed }) => loose + packed)
  const [carrier] = carriers
  if (fetching.together === 'each')
    return volumes.reduce((sum, volume, at) => sum + loads([volume], [finishes[at]!], carrier, true), 0)
  if (fetching.together === 'all') return loads(volumes, finishes, carrier, true)
  const own = picked.reduce((sum, { loose }, at) => sum + loads([loose], [finishes[at]!], carrier, true), 0)
  const bags = picked.map(({ packed }) => packed)
  const room = picked.reduce((sum, { loose }, at) => sum + loads([loose], [finishes[at]!], carrier, false), 0)
  const filled = room + loads(bags, finishes, carrier, false)
  return Math.max(own, bags.some(volume => volume > 0) ? Math.max(1, Math.ceil(filled - 1e-9)) : 0)
}

function loads(volumes: number[], finishes: Finish[], carrier: Carrier | undefined, whole: boolean): number {
  const volume = volumes.reduce((sum, one) => sum + one, 0)
  const weight = volumes.reduce((sum, one, at) => sum + one * Number(finishes[at]!.densityWet ?? 0), 0)
  const full = carrier
    ? Math.max(
        volume / Number(carrier.volume),
        carrier.payload === null ? 0 : weight / Number(carrier.payload),
      )
    : 0
  return whole ? (volume > 0 ? Math.max(1, Math.ceil(full - 1e-9)) : 0) : full
}
