import type { Deps } from '../deps.ts'
import { findRateTable } from '../rates/queries.ts'
import { orderInWords } from './page.ts'
import { findOpenOrdersOf } from './queries.ts'
import { movedAway } from './to-order.ts'

/** The open orders that moving each of these jobs breaks, as sentences, by the job's id. */
export async function findBreaking(deps: Deps, jobIds: number[]): Promise<Map<number, string[]>> {
  const orders = await findOpenOrdersOf(deps.db, jobIds)
  const rates = orders.length > 0 ? await findRateTable(deps.db, deps.now()) : undefined
  const breaking = new Map<number, string[]>()
  for (const order of rates ? orders : [])
    for (const { id, day } of order.jobs)
      if (day === order.day) breaking.set(id, [...(breaking.get(id) ?? []), orderInWords(order, rates!.body)])
  return breaking
}

/** The open orders of these jobs that are broken already, as a job of each isn't on its day any more. */
export async function findBroken(deps: Deps, jobIds: number[]): Promise<string[]> {
  const orders = (await findOpenOrdersOf(deps.db, jobIds)).filter(order => movedAway(order).length > 0)
  const rates = orders.length > 0 ? await findRateTable(deps.db, deps.now()) : undefined
  return rates ? orders.map(order => orderInWords(order, rates.body)) : []
}
