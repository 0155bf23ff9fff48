import type { Carrier } from '../estimate/table/rate-table.ts'
import { Decimal, sumOf, zero } from '../lib/decimal.ts'
import { type Carried, isSameLoose } from './carried.ts'

/** So many units of something, for one job. */
export interface Load {
  one: Carried
  units: Decimal
}

/** What of a trip rides on one carrier. */
export interface OnCarrier {
  carrier: Carrier
  loads: Load[]
}

/** All of a trip on its carriers; `over` found no room on any of them. */
export interface Placed {
  on: OnCarrier[]
  over: Load[]
}

const HAIR = 1e-9

/**
 * Puts a trip on as few carriers as take all of it, the truck before the trailer, as they are listed: packs whole, and what
 * is loose in whole scoops, each within what its carrier holds level and may carry. What is tried are some orders of filling
 * them, and parts by their size; where none takes all, the one that leaves least.
 */
export function putOnCarriers(loads: readonly Load[], carriers: readonly Carrier[]): Placed {
  const heaps = heapsOf(loads)
  let best: Filling | undefined
  for (const set of setsOf(carriers))
    for (const filling of fillingsOf(heaps, set)) {
      if (!best || filling.over < best.over - HAIR) best = filling
      if (best.over <= HAIR) return handOut(best, heaps, carriers)
    }
  return handOut(best!, heaps, carriers)
}

/** What is put on at once: a kind of pack for one job, or everything loose of one material. */
interface Heap {
  loads: Load[]
  units: number
  step: number
  /** Of a unit, in yd³|m³ and lb|kg; nothing where the weight isn't known. */
  volume: number
  weight: number
}

interface Filling {
  carriers: readonly Carrier[]
  /** Units of each heap on each carrier. */
  units: number[][]
  /** In yd³|m³. */
  over: number
}

function heapsOf(loads: readonly Load[]): Heap[] {
  const groups: Load[][] = []
  for (const load of loads) {
    const same = groups.find(([first]) => isSameLoose(first!.one, load.one))
    if (same) same.push(load)
    else groups.push([load])
  }
  return groups.map(own => {
    const { contents, isLoose, scoop, finish } = own[0]!.one
    const volume = contents.toNumber()
    return {
      ...{ loads: own, units: sumOf(own.map(({ units }) => units)).toNumber() },
      ...{ step: isLoose ? scoop.toNumber() : 1, volume, weight: volume * Number(finish.densityWet ?? 0) },
    }
  })
}

/** Each carrier alone, then the first two, the first three, and so on. */
function setsOf(carriers: readonly Carrier[]): Carrier[][] {
  return [
    ...carriers.map(carrier => [carrier]),
    ...carriers.map((_, index) => carriers.slice(0, index + 1)).slice(1),
  ]
}

function* fillingsOf(heaps: readonly Heap[], set: readonly Carrier[]): Generator<Filling> {
  const byDensity = heaps.map((_, index) => index).sort((a, b) => densityOf(heaps[b]!) - densityOf(heaps[a]!))
  const listed = set.map((_, index) => index)
  const orders = [heaps.map((_, index) => index), byDensity, byDensity.toReversed()]
  for (const order of orders)
    for (const carriers of [listed, listed.toReversed()]) yield fillInOrder(heaps, set, order, carriers)
  for (const shares of [set.map(({ volume }) => Number(volume)), set.map(payloadOf)]) {
    const whole = shares.reduce((sum, share) => sum + share, 0)
    if (!Number.isFinite(whole)) continue
    const first = heaps.map(({ units, step }) =>
      shares.map(share => Math.floor((units * share) / whole / step + HAIR) * step),
    )
    yield fillInOrder(heaps, set, byDensity, listed, first)
  }
}

function densityOf({ volume, weight }: Heap): number {
  return weight / volume
}

function payloadOf({ payload }: Carrier): number {
  return payload === null ? Number.POSITIVE_INFINITY : Number(payload)
}

/** Fills one carrier after the other, with what `first` puts on each before. */
function fillInOrder(
  heaps: readonly Heap[],
  set: readonly Carrier[],
  order: readonly number[],
  carriers: readonly number[],
  first: readonly number[][] = [],
): Filling {
  const room = set.map(carrier => ({ volume: Number(carrier.volume), weight: payloadOf(carrier) }))
  const units = heaps.map(() => set.map(() => 0))
  const left = heaps.map(heap => heap.units)
  const put = (at: number, carrier: number, most: number) => {
    const { step, volume, weight } = heaps[at]!
    const has = room[carrier]!
    const byWeight = weight > 0 ? has.weight / weight : Number.POSITIVE_INFINITY
    const steps = Math.floor(Math.min(has.volume / volume, byWeight) / step + HAIR)
    const taken = Math.min(left[at]!, most, Math.max(0, steps) * step)
    // A scoop that isn't full takes its room all the same.
    const whole = Math.ceil(taken / step - HAIR) * step
    has.volume -= whole * volume
    has.weight -= whole * weight
    units[at]![carrier]! += taken
    left[at]! -= taken
  }
  first.forEach((shares, at) => {
    shares.forEach((share, carrier) => {
      put(at, carrier, share)
    })
  })
  for (const at of order) for (const carrier of carriers) put(at, carrier, left[at]!)
  return { carriers: set, units, over: left.reduce((sum, rest, at) => sum + rest * heaps[at]!.volume, 0) }
}

/** The same for each job: of a heap the jobs get theirs one after the other, carrier by carrier. */
function handOut({ carriers: set, units }: Filling, heaps: readonly Heap[], all: readonly Carrier[]): Placed {
  const on = set.map((carrier): OnCarrier => ({ carrier, loads: [] }))
  const over: Load[] = []
  heaps.forEach(({ loads }, at) => {
    const rest = loads.map(load => ({ ...load }))
    set.forEach((_, carrier) => {
      let room = new Decimal(units[at]![carrier]!.toFixed(9))
      for (const load of rest) {
        const taken = Decimal.min(room, load.units)
        if (taken.gt(HAIR)) on[carrier]!.loads.push({ one: load.one, units: taken })
        room = room.minus(taken)
        load.units = load.units.minus(taken)
      }
    })
    over.push(...rest.filter(load => load.units.gt(HAIR)))
  })
  const listed = all.flatMap(carrier => on.filter(one => one.carrier === carrier))
  return { on: listed.filter(({ loads }) => loads.length > 0), over }
}

/** Volume in yd³|m³ and wet weight in lb|kg, null where one isn't known. */
export function sizeOf(loads: readonly Load[]): { volume: Decimal; weight: Decimal | null } {
  const volumes = loads.map(({ one, units }) => units.times(one.contents))
  const isKnown = loads.every(({ one }) => one.finish.densityWet !== null)
  const weights = loads.map(({ one }, index) => volumes[index]!.times(one.finish.densityWet ?? zero))
  return { volume: sumOf(volumes), weight: isKnown ? sumOf(weights) : null }
}
