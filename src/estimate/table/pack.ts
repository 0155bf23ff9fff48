import { z } from 'zod'
import { type Decimal, figureOf, one } from '../../lib/decimal.ts'
import type { UnitSystem } from '../units/units.ts'
import { declared, figure, figureOrNone, nameOf, slug, yes } from './row.ts'

/** From so many units on, each costs so much; the first of a list is from 0. */
const price = z.object({
  from: figure('from', 'From this many', {
    unit: 'bags, bales, {bulk}, {ton}, rolls or pieces',
    meaning: 'The first is 0.',
    secret: true,
  }),
  each: figure('each', 'Price of each from there', { unit: '{money}', secret: true }),
})

const prices = z
  .array(price)
  .min(1)
  .superRefine((list, context) => {
    list.forEach(({ from }, index) => {
      const before = list[index - 1]
      if (before ? Number(from) <= Number(before.from) : Number(from) !== 0)
        context.addIssue({
          code: 'custom',
          path: [index, 'from'],
          message: before ? 'larger than the one before' : 'the first price holds from 0',
        })
    })
  })

/** How something is bought, in units: whole packs, or yd³|m³ and tons|tonnes in bulk. The fee is for the whole order. */
function bought<Kind extends string, Sizes extends z.core.$ZodShape>(kind: Kind, unit: string, sizes: Sizes) {
  return z.object({
    slug: slug(),
    name: nameOf({ secret: true }),
    kind: z.literal(kind),
    ...sizes,
    prices: declared(prices, {
      kind: 'prices',
      start: [],
      name: 'prices',
      label: 'Price of each',
      unit: '{money}',
      meaning: 'With breaks: 0: 4.20; 40: 3.60 is 4.20 each, and 3.60 from 40.',
    }),
    least: figure('least', 'Smallest order', { unit, start: '1' }),
    step: figure('step', 'Sold in steps of', { unit, above: 0, start: '1' }),
    collected: yes('collected', 'You can pick it up', { start: true }),
    delivered: z
      .object({
        fee: figure('delivery fee', 'Delivery fee', {
          unit: '{money}',
          meaning: 'For the whole order; 0 if it’s free. Empty: no delivery.',
          secret: true,
        }),
        freeFrom: figureOrNone('free from', 'Free delivery from', {
          unit,
          meaning: 'Empty: never.',
          secret: true,
        }),
      })
      .nullable(),
  })
}

const weightWet = figureOrNone('wet weight', 'Weight of one when wet', {
  unit: '{weight}',
  above: 0,
  meaning: 'You’re warned if it’s too heavy to lift. Empty: worked out from the material’s wet weight.',
})

/** The ways in which a finish is bought. What is weighed is sold by the short ton|tonne. */
export const packKinds = {
  bag: bought('bag', 'bags', {
    holds: figure('holds', 'A bag holds', { unit: '{volume}', above: 0 }),
    weightWet,
  }),
  bale: bought('bale', 'bales', {
    covers: figure('covers', 'A bale covers', { unit: '{area}', above: 0 }),
    deep: figure('deep', 'At this depth', { unit: '{depth}', above: 0 }),
    weightWet,
  }),
  bulk: bought('bulk', '{bulk}', {}),
  weighed: bought('weighed', '{ton}', {
    density: figure('density', 'Weight as sold', { unit: '{weight} per {bulk}', above: 0 }),
  }),
}

/** The ways in which what an extra needs is bought: rolls by area, pieces by length, with the stakes of each piece. */
const extraPackKinds = {
  roll: bought('roll', 'rolls', {
    width: figure('width', 'Width of a roll', { unit: '{length}', above: 0 }),
    length: figure('length', 'Length of a roll', { unit: '{length}', above: 0 }),
    overlap: figure('overlap', 'Overlap with the one beside it', {
      unit: '{length}',
      meaning: '6 in or 15 cm is common practice.',
      start: { us: '0.5', metric: '0.15' },
    }),
    strips: yes('strips', 'Buy enough for whole strips', {
      meaning: 'Laid side by side along the bed. If not, by its area.',
      before: false,
      start: true,
    }),
  }).refine(roll => Number(roll.overlap) < Number(roll.width), {
    path: ['overlap'],
    message: 'less than the width',
  }),
  piece: bought('piece', 'pieces', {
    length: figure('length', 'Length of a piece', { unit: '{length}', above: 0 }),
    stakes: figure('stakes', 'Stakes that go with a piece'),
    stakeEach: figure('stake price', 'Price of a stake', { unit: '{money}', secret: true }),
  }),
}

const { bag, bale, bulk, weighed } = packKinds
const { roll, piece } = extraPackKinds
const anyWay = (pack: { collected: boolean; delivered: unknown }) => pack.collected || pack.delivered !== null
const someWay = { path: ['collected'], message: 'collected, delivered or both' }

export const packs = z.array(z.discriminatedUnion('kind', [bag, bale, bulk, weighed]).refine(anyWay, someWay))
export const extraPacks = z.array(z.discriminatedUnion('kind', [roll, piece]).refine(anyWay, someWay))

/** The one way to buy that is taken, 'bag-2:collected'; null takes the cheapest. */
export function pinned() {
  const meaning = 'A pack’s slug with :collected or :delivered. Empty: the cheapest for the job.'
  const facts = {
    kind: 'pinned',
    name: 'pinned way to buy',
    label: 'Which one you buy',
    meaning,
    before: null,
  } as const
  return declared(z.string().nullable(), facts)
}

export type PriceFrom = z.infer<typeof price>
export type Bag = z.infer<typeof bag>
export type Bale = z.infer<typeof bale>
export type Bulk = z.infer<typeof bulk>
export type Weighed = z.infer<typeof weighed>
export type Roll = z.infer<typeof roll>
export type Piece = z.infer<typeof piece>
/** A way in which a finish is bought. */
export type Pack = z.infer<typeof packs>[number]
/** A way in which what an extra needs is bought. */
export type ExtraPack = z.infer<typeof extraPacks>[number]

const known = new WeakMap<Pack | ExtraPack, { system: UnitSystem; contents: Decimal }>()

/** What one unit gives: yd³|m³ of a finish, ft²|m² of a roll laid with its overlap, ft|m of a piece. */
export function contentsOf(pack: Pack | ExtraPack, system: UnitSystem): Decimal {
  const last = known.get(pack)
  if (last?.system === system) return last.contents
  const contents = workOut(pack, system)
  known.set(pack, { system, contents })
  return contents
}

function workOut(pack: Pack | ExtraPack, system: UnitSystem): Decimal {
  switch (pack.kind) {
    case 'bag':
      return figureOf(pack.holds).div(system.volumesPerBulk)
    case 'bale':
      return figureOf(pack.covers).times(pack.deep).div(system.depthsPerLength).div(system.volumesPerBulk)
    case 'bulk':
      return one
    case 'weighed':
      return system.weightPerTon.div(pack.density)
    case 'roll':
      return figureOf(pack.width).minus(pack.overlap).times(pack.length)
    case 'piece':
      return figureOf(pack.length)
    default:
      return pack satisfies never
  }
}

/** One way to get a pack: brought, or fetched. key is how a rate table pins it: 'bag-2:collected'. */
export interface Way<P extends Pack | ExtraPack = Pack | ExtraPack> {
  key: string
  pack: P
  delivered: boolean
}

/** Every way to buy, in the order of the list. */
export function waysOf<P extends Pack | ExtraPack>(packs: P[]): Way<P>[] {
  return packs.flatMap(pack => [
    ...(pack.collected ? [{ key: `${pack.slug}:collected`, pack, delivered: false }] : []),
    ...(pack.delivered ? [{ key: `${pack.slug}:delivered`, pack, delivered: true }] : []),
  ])
}
