import type { Finish, RateTable } from '../../src/estimate/table/rate-table.ts'

// Written on its own from what is meant, in plain numbers; it shares no code with the estimate.

/** The price of so many yd³ of a finish by its cost: bought, fetched and laid, and the margin or the markup on that. */
export function priceByCost(
  finish: Finish,
  volume: number,
  slowed: number,
  stand: number,
  table: RateTable,
): number {
  const { labor } = table
  const hours = slowed * at(labor.spread, stand)
  const need = volume * (1 + Number(finish.allowance ?? table.allowance))
  return plus(cheapest(finish, need, stand, table) + hours * laborHour(table), table)
}

/** What setting up comes to in the price: its hours and the truck. */
export function setUpByCost(stand: number, table: RateTable): number {
  return plus(at(table.labor.setUp, stand) * laborHour(table) + Number(table.costs.truckPerJob), table)
}

function laborHour({ costs }: RateTable): number {
  return Number(costs.wage) * (1 + Number(costs.burden)) + Number(costs.overheadPerLaborHour)
}

function plus(cost: number, { costPlus }: RateTable): number {
  const share = Number(costPlus.share)
  return costPlus.by === 'markup' ? cost * (1 + share) : cost / (1 - share)
}

function at(span: { lower: string; upper: string }, stand: number): number {
  return Number(span.lower) + (Number(span.upper) - Number(span.lower)) * stand
}

function cheapest(finish: Finish, need: number, stand: number, table: RateTable): number {
  if (finish.packs.length === 0) return need * Number(finish.materialCost)
  const trip = at(table.labor.trip, stand) * laborHour(table) + Number(table.costs.truckPerTrip)
  let least = Number.POSITIVE_INFINITY
  for (const pack of finish.packs) {
    if (pack.kind !== 'bag' && pack.kind !== 'bulk') throw new Error(`No simulation of a ${pack.kind}`)
    const holds = pack.kind === 'bag' ? Number(pack.holds) / 27 : 1
    const step = Number(pack.step)
    let units = Math.max(Math.ceil(need / holds / step), Math.ceil(Number(pack.least) / step)) * step
    // As far as anything could still get cheaper: from then on more only costs more.
    const last = Math.max(
      units,
      ...pack.prices.map(({ from }) => Number(from) + step),
      Number(pack.delivered?.freeFrom ?? 0) + step,
    )
    for (; units <= last; units += step) {
      const goods = units * Number(pack.prices.findLast(({ from }) => units >= Number(from))!.each)
      if (pack.collected)
        least = Math.min(least, goods + trip * Math.ceil((units * holds) / carried(finish, table)))
      if (pack.delivered) {
        const free = pack.delivered.freeFrom !== null && units >= Number(pack.delivered.freeFrom)
        least = Math.min(least, goods + (free ? 0 : Number(pack.delivered.fee)))
      }
    }
  }
  return least
}

function carried({ densityWet }: Finish, { carriers }: RateTable): number {
  return carriers.reduce((sum, { volume, payload }) => {
    const byWeight =
      payload === null || densityWet === null ? Number(volume) : Number(payload) / Number(densityWet)
    return sum + Math.min(Number(volume), byWeight)
  }, 0)
}
