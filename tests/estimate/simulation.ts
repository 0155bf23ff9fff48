import type { BedTold } from '../../src/estimate/job/bed.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { priceByCost, setUpByCost } from './simulation-costs.ts'
import { areaOf, edgeOf } from './simulation-shapes.ts'

/** What else there is to a job: how slow each bed is, extras by their slugs, and a tax on all of it that the range has in it. */
interface Besides {
  slowness?: number[]
  extras?: string[]
  tax?: number
}

/** How far a bed's form is from what it is called; of a list it hangs on how many figures there are. */
const FORM: Record<string, number> = { curvy: 0.1 }
const PLANTED: Record<string, number> = { open: 0.02, half: 0.05, full: 0.08 }

/**
 * Prices of `draws` jobs as they might really be: every size of every bed drawn afresh, its form, the share planted and
 * what lies there. Written on its own from what is meant, in plain numbers; it shares no code with the ballpark. Sizes
 * are plain feet, 'about …' by eye.
 */
export function simulate(
  beds: BedTold[],
  table: RateTable,
  draws: number,
  seed: number,
  { slowness = beds.map(() => 1), extras = [], tax = 0 }: Besides = {},
): Float64Array {
  const uniform = mulberry32(seed)
  const normal = boxMuller(uniform)
  const copies = beds.flatMap((bed, index) =>
    Array.from({ length: Number(bed.count) }, () => ({
      ...simulated(bed, table),
      slow: slowness[index]! * Number(table.labor.planted[bed.planted as 'open']),
    })),
  )
  const priceOf = pricer(table)
  const extraPriceOf = extraPricer(table, extras)
  const prices = new Float64Array(draws)
  for (let draw = 0; draw < draws; draw++) {
    const [bias, depthBias, stand] = [normal(), normal(), uniform()]
    const volumes: Record<string, number> = {}
    const slowed: Record<string, number> = {}
    const whole = { area: 0, edge: 0 }
    for (const { finish, real, slow } of copies) {
      const { volume, area, edge, beneath } = real(bias, depthBias, normal)
      for (const [under, more] of beneath) {
        volumes[under] = (volumes[under] ?? 0) + more
        slowed[under] = (slowed[under] ?? 0) + more * slow
      }
      whole.area += area
      whole.edge += edge
      volumes[finish] = (volumes[finish] ?? 0) + volume
      slowed[finish] = (slowed[finish] ?? 0) + volume * slow
    }
    const price = priceOf(volumes, slowed, stand) + extraPriceOf(whole, stand)
    const untaxed = Math.round(Math.max(price, Number(table.minimumCharge)) * 100)
    prices[draw] = Math.round(untaxed * (1 + tax))
  }
  return prices
}

type Normal = () => number

function simulated(bed: BedTold, table: RateTable) {
  const lies = table.lying[bed.lying as keyof typeof table.lying]
  const [mean, error] = lies ? [Number(lies.m), Number(lies.s)] : [Number(bed.lying), Number(table.lyingTold)]
  const finish = table.finishes.find(one => one.slug === bed.finish)!
  const target = Number(bed.depth || finish.depth.usual)
  const open = 1 - Number(table.planted[bed.planted as keyof typeof table.planted])
  const sizes = Object.entries(bed.sizes).flatMap(([name, typed]) =>
    listed(name) ? typed.split(' ').map((one, at) => sizeOf(`${name}.${at}`, one)) : [sizeOf(name, typed)],
  )
  const noEdge = Number((bed.noEdge ?? '0').replace(' ft', ''))
  const cutOuts = cutOutsOf(bed.cutOuts ?? '').map(({ shape, told }) => ({
    shape,
    sizes: Object.entries(told).map(([name, typed]) => sizeOf(name, typed)),
  }))
  function sizeOf(name: string, typed: string): ToldSize {
    const way = typed.startsWith('about') ? 'eye' : (bed.measuredBy as 'eye')
    const { sigma, rho } = table.measuring[way]
    const shared = Number(sigma) * Math.sqrt(Number(rho))
    const own = Number(sigma) * Math.sqrt(1 - Number(rho))
    return { name, told: Number.parseFloat(typed.replace('about ', '')), shared, own }
  }
  const form = formOf(bed, sizes.length)
  const layers = Array.isArray(bed.layers) ? bed.layers : []
  const planted = PLANTED[bed.planted]!
  const real = (bias: number, depthBias: number, normal: Normal) => {
    if (bed.shape === 'volume') {
      const volume = sizes[0]!.told * (1 + 0.05 * normal())
      return { volume: volume / 27, area: volume / (target / 12), edge: 0, beneath: [] }
    }
    const stays = bed.work === 'new' || layers.length > 0 ? 0 : Math.max(0, mean + error * depthBias)
    const depth = Math.max(Number(table.thinnestTopUp), target - stays)
    const measured = drawn(sizes, bias, normal)
    const outline = areaOf(bed.shape, measured) * (1 + form * normal())
    const cut = cutOuts.reduce(
      (sum, one) => sum + areaOf(one.shape, drawn(one.sizes, bias, normal)) * (1 + 0.04 * normal()),
      0,
    )
    const area = Math.max(0, outline - cut)
    const edge = Math.max(0, edgeOf(bed.shape, measured) - noEdge)
    const deepOne = (area * (open + planted * normal())) / 12 / 27
    // What lies beneath is as large as what lies on it, and its depth is as told.
    const beneath = layers.map(({ what, depth }): [string, number] => [what, deepOne * Number(depth)])
    return { volume: deepOne * depth, area, edge, beneath }
  }
  return { finish: bed.finish, real }
}

function formOf({ shape }: BedTold, sizes: number): number {
  if (shape === 'radii') return Math.max(0.01, 6 / sizes ** 2)
  if (shape === 'offsets') return Math.max(0.01, 0.9 / (sizes - 2) ** 2)
  if (shape === 'uneven-offsets') return Math.max(0.01, 0.9 / ((sizes - 1) / 2) ** 2)
  return FORM[shape] ?? 0.04
}

/** What the extras come to, of those that go by area and by edge. */
function extraPricer(table: RateTable, slugs: string[]) {
  const asked = table.extras
    .filter(({ slug }) => slugs.includes(slug))
    .map(({ per, lower, upper }) => ({
      per: per as 'area' | 'edge',
      lower: Number(lower),
      gap: Number(upper) - Number(lower),
    }))
  return (whole: { area: number; edge: number }, stand: number): number =>
    asked.reduce((sum, { per, lower, gap }) => sum + whole[per] * (lower + gap * stand), 0)
}

interface ToldSize {
  name: string
  told: number
  shared: number
  own: number
}

function listed(name: string): boolean {
  return name === 'offsets' || name === 'spacings' || name === 'radii'
}

/** The sizes as they might really be. */
function drawn(sizes: ToldSize[], bias: number, normal: Normal): Record<string, number> {
  const real: Record<string, number> = {}
  for (const { name, told, shared, own } of sizes) {
    const factor = 1 + shared * bias + own * normal()
    real[name] = told * (name === 'area' ? factor * factor : factor)
  }
  return real
}

/** Cut-outs as they are generated, '2 of 4 x 3 ft; about 2 ft across; 10 sq ft', each of several by itself. */
function cutOutsOf(typed: string) {
  return typed.split('; ').flatMap(part => {
    const found = /^(?:(\d+) of )?((?:about )?[\d.]+)(?: x ([\d.]+))? (sq )?ft(?: across)?$/.exec(part)
    if (!found) return []
    const [, count = '1', first = '', second, square] = found
    const about = first.startsWith('about') ? 'about ' : ''
    const one: { shape: string; told: Record<string, string> } = second
      ? { shape: 'rectangle', told: { length: first, width: about + second } }
      : square
        ? { shape: 'area', told: { area: first } }
        : { shape: 'circle', told: { diameter: first } }
    return Array.from({ length: Number(count) }, () => one)
  })
}

type Price = (all: Record<string, number>, slowed: Record<string, number>, stand: number) => number

function pricer(table: RateTable): Price {
  const byCost = new Map(table.finishes.flatMap(one => (one.pricedBy === 'cost' ? [[one.slug, one]] : [])))
  const installedPrice = installedPricer(table)
  return (all, slowed, stand) => {
    const costly = Object.keys(all).filter(slug => byCost.has(slug))
    const costs = costly.map(slug => priceByCost(byCost.get(slug)!, all[slug]!, slowed[slug]!, stand, table))
    const others = costs.reduce((sum, cost) => sum + cost, costly.length > 0 ? setUpByCost(stand, table) : 0)
    const volumes = Object.entries(all).filter(([slug]) => !byCost.has(slug))
    const installed = volumes.length === 0 ? 0 : installedPrice(volumes, stand)
    return installed + others
  }
}

// The figures are read once, not for every draw.
function installedPricer(table: RateTable): (volumes: [string, number][], stand: number) => number {
  const rates = new Map(
    table.finishes.map(({ slug, rates }) => [
      slug,
      rates.map(({ lower, upper }) => ({ lower: Number(lower), spread: Number(upper) - Number(lower) })),
    ]),
  )
  const offered = table.finishes.filter(({ pricedBy }) => pricedBy === 'rate').map(({ slug }) => slug)
  const starts = [0, ...table.tiers.map(Number)]
  return (volumes, stand) => {
    const total = volumes.reduce((sum, [, volume]) => sum + volume, 0)
    const own = starts.filter(from => from <= total).length - 1
    const prices = starts.slice(own).map((from, index) => {
      const rateOf = (slug: string) => {
        const { lower, spread } = rates.get(slug)![own + index]!
        return lower + spread * stand
      }
      const dressed = volumes.reduce((sum, [slug, volume]) => sum + volume * rateOf(slug), 0)
      return dressed + Math.max(0, from - total) * Math.min(...offered.map(rateOf))
    })
    return Math.min(...prices)
  }
}

function mulberry32(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}

function boxMuller(uniform: () => number): Normal {
  let spare: number | null = null
  return () => {
    if (spare !== null) {
      const kept = spare
      spare = null
      return kept
    }
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()))
    const angle = 2 * Math.PI * uniform()
    spare = radius * Math.sin(angle)
    return radius * Math.cos(angle)
  }
}
