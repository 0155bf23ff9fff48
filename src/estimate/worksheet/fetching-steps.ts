import { type Decimal, sumOf } from '../../lib/decimal.ts'
import type { Offer, Part } from '../packs/offers.ts'
import type { Shopping } from '../packs/shopping.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import type { Figures } from './figures.ts'

interface Fetched {
  finish: Finish
  volume: Decimal
  /** Of it, what is in bags or bales. */
  packed: Decimal
}

/** How all that is picked up rides together, and what its trips cost; nothing where each finish is fetched by itself. */
export function fetchingSteps(shopping: Shopping, table: RateTable, f: Figures): string[] {
  if (table.fetching.together === 'each' || shopping.trips.isZero()) return []
  const fetched = shopping.finishes.flatMap(({ finish, buying }) => fetchedOf(finish, buying?.taken))
  const cost = shopping.trips.times(shopping.tripCost)
  return [
    ...fetched.map(one => `${one.finish.name.en}: ${loadOf(one, f)}`),
    ...(fetched.length > 1 ? [`Together: ${amountOf(fetched, f)}`] : []),
    ...(table.carriers.length > 0 ? [`A load holds ${capacityOf(table, f)}`] : []),
    ...(apart(fetched, table)
      ? ['Two loose materials never share a load. Bags and bales fill the room that’s left.']
      : []),
    `${f.trips(shopping.trips)} × ${f.money(shopping.tripCost)} = ${f.money(cost.toDecimalPlaces(2))}`,
  ]
}

function fetchedOf(finish: Finish, taken: Offer | undefined): Fetched[] {
  const parts = (taken?.parts ?? []).filter(({ way }) => way !== null && !way.delivered)
  const volumeOf = (some: Part[]) => sumOf(some.map(({ contents }) => contents))
  const packed = parts.filter(({ way }) => way!.pack.kind === 'bag' || way!.pack.kind === 'bale')
  const volume = volumeOf(parts)
  return volume.isZero() ? [] : [{ finish, volume, packed: volumeOf(packed) }]
}

function loadOf({ finish, volume }: Fetched, f: Figures): string {
  if (finish.densityWet === null) return f.bulk(volume)
  const weight = volume.times(finish.densityWet)
  return `${f.bulk(volume)} × ${f.weight(finish.densityWet)} when wet = ${f.weight(weight.toDecimalPlaces(0))}`
}

function amountOf(fetched: Fetched[], f: Figures): string {
  const volume = sumOf(fetched.map(one => one.volume))
  const weight = sumOf(fetched.map(one => one.volume.times(one.finish.densityWet ?? 0)))
  return weight.isZero() ? f.bulk(volume) : `${f.bulk(volume)} and ${f.weight(weight.toDecimalPlaces(0))}`
}

function capacityOf({ carriers }: RateTable, f: Figures): string {
  return carriers
    .map(({ name, volume, payload }) => {
      const most = payload === null ? '' : ` and ${f.weight(payload)}`
      return `${f.bulk(volume)}${most} on ${name.en}`
    })
    .join(', and ')
}

function apart(fetched: Fetched[], table: RateTable): boolean {
  const loose = fetched.filter(({ volume, packed }) => volume.gt(packed))
  return table.fetching.together === 'apart' && loose.length > 0 && fetched.length > 1
}
