import type { BedTold } from '../../src/estimate/job/bed.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { priceByCost, setUpByCost } from './simulation-costs.ts'

/**
 * Prices of `draws` jobs as they might really be, every size of every bed drawn afresh. Written on its own from what
 * is meant, in plain numbers; it shares no code with the ballpark. Sizes are plain feet, 'about …' by eye.
 */
export function simulate(
  beds: BedTold[],
  table: RateTable,
  draws: number,
  seed: number,
  slowness = beds.map(() => 1),
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
  const prices = new Float64Array(draws)
  for (let draw = 0; draw < draws; draw++) {
    const [bias, depthBias, stand] = [normal(), normal(), uniform()]
    const volumes: Record<string, number> = {}
    const slowed: Record<string, number> = {}
    for (const { finish, volume: volumeOf, slow } of copies) {
      const volume = volumeOf(bias, depthBias, normal)
      volumes[finish] = (volumes[finish] ?? 0) + volume
      slowed[finish] = (slowed[finish] ?? 0) + volume * slow
    }
    prices[draw] = priceOf(volumes, slowed, stand)
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
  const alike = alikeOf(bed)
  const cutOuts = cutOutsOf(bed.cutOuts ?? '').map(({ shape, told }) => ({
    shape,
    sizes: Object.entries(told).map(([name, typed]) => sizeOf(name, typed)),
  }))
  function sizeOf(name: string, typed: string): ToldSize {
    const way = typed.startsWith('about') ? 'eye' : (bed.measuredBy as 'eye')
    const { sigma, rho } = table.measuring[way]
    const shared = Number(sigma) * Math.sqrt(Number(rho))
    const own = Number(sigma) * Math.sqrt(1 - Number(rho))
    return { name, told: Number(typed.replace('about ', '')), shared, own }
  }
  const volume = (bias: number, depthBias: number, normal: Normal): number => {
    if (bed.shape === 'volume') return (sizes[0]!.told * (1 + 0.05 * normal())) / 27
    const stays = bed.work === 'new' ? 0 : Math.max(0, mean + error * depthBias)
    const depth = Math.max(Number(table.thinnestTopUp), target - stays)
    const rough = bed.shape === 'curvy' ? 1 + 0.05 * normal() : 1
    const outline = areaOf(bed.shape, drawn(sizes, bias, normal), alike) * rough
    const cut = cutOuts.reduce((sum, one) => sum + areaOf(one.shape, drawn(one.sizes, bias, normal)), 0)
    return Math.max(0, ((outline - cut) * open * depth) / 12 / 27)
  }
  return { finish: bed.finish, volume }
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

function areaOf(shape: string, size: Record<string, number>, alike: boolean[] = []): number {
  if (shape === 'offsets' || shape === 'uneven-offsets') return alongLine(size, alike)
  if (shape === 'radii') return Math.PI * meanSquare(Object.values(size))
  if (shape === 'circle') return (Math.PI / 4) * size.diameter! ** 2
  if (shape === 'oval') return (Math.PI / 4) * size.length! * size.width!
  if (shape === 'triangle') return (size.base! * size.height!) / 2
  if (shape === 'ring') return (Math.PI / 4) * (size.outer! ** 2 - size.inner! ** 2)
  if (shape === 'circle-round') return size.round! ** 2 / (4 * Math.PI)
  if (shape === 'half-circle') return (Math.PI / 8) * size.diameter! ** 2
  if (shape === 'quarter-circle') return (Math.PI / 4) * size.radius! ** 2
  if (shape === 'sides') return triangleArea(size.a!, size.b!, size.c!)
  if (shape === 'trapezoid') return ((size.base! + size.top!) / 2) * size.height!
  if (shape === 'l-shape') return size.length! * size.width! - size.cutLength! * size.cutWidth!
  if (shape === 'area') return size.area!
  return size.length! * size.width!
}

function meanSquare(figures: number[]): number {
  return figures.reduce((sum, figure) => sum + figure * figure, 0) / figures.length
}

/** Of a bed along a line: whether each strip was told to be as long as the one after it. */
function alikeOf({ shape, sizes }: BedTold): boolean[] {
  if (shape === 'offsets')
    return sizes
      .offsets!.split(' ')
      .slice(2)
      .map(() => true)
  const told = (sizes.spacings ?? '').split(' ').map(Number)
  return told.slice(1).map((spacing, at) => spacing === told[at])
}

// A parabola through three widths where two told distances are alike, Lagrange's for whatever they really are.
function alongLine(size: Record<string, number>, alike: boolean[]): number {
  let area = 0
  for (let at = 0; at <= alike.length; at++) {
    const [h, k] = [size.spacing ?? size[`spacings.${at}`]!, size.spacing ?? size[`spacings.${at + 1}`]!]
    const [a, b, c] = [size[`offsets.${at}`]!, size[`offsets.${at + 1}`]!, size[`offsets.${at + 2}`]!]
    if (alike[at]) {
      area += ((h + k) / 6) * ((2 - k / h) * a + ((h + k) ** 2 / (h * k)) * b + (2 - h / k) * c)
      at++
    } else area += ((a + b) / 2) * h
  }
  return area
}

// Half of two sides and the sine between them, by the law of cosines.
function triangleArea(a: number, b: number, c: number): number {
  const cosine = (a * a + b * b - c * c) / (2 * a * b)
  return (a * b * Math.sqrt(Math.max(0, 1 - cosine * cosine))) / 2
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
    return Math.round(Math.max(installed + others, Number(table.minimumCharge)) * 100)
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
