import { z } from 'zod'
import { cautionTicks } from './caution.ts'
import { layersBeneath } from './layer.ts'
import { packs, pinned } from './pack.ts'
import { isPhotoName } from './photo-name.ts'
import {
  COMMON,
  choice,
  declared,
  figure,
  figureOrNone,
  INVENTED,
  nameOf,
  plainSlug,
  shareOrNone,
  slug,
  span,
  together,
  yes,
} from './row.ts'

const read = { heading: 'What people read and see' }
const picked = { heading: 'For homeowners' }
const deep = { heading: 'Depths', unit: '{depth}', above: 0 } as const
const price = { heading: 'Price' }
const material = { heading: 'As a material' }
const beneath = { heading: 'What lies beneath it' }
const sold = { heading: 'How it’s sold' }

const depth = z
  .object({
    least: figure('least depth', 'Least depth', {
      ...deep,
      start: { us: '2', metric: '5' },
      meaning: 'Anything thinner shows a caution.',
    }),
    usual: figure('usual depth', 'Usual depth', {
      ...deep,
      start: { us: '3', metric: '7.5' },
      meaning: 'Used unless the homeowner asks for something else.',
    }),
    greatest: figure('greatest depth', 'Greatest depth', {
      ...deep,
      start: { us: '4', metric: '10' },
      meaning: 'Anything deeper shows a caution.',
    }),
  })
  .refine(
    ({ least, usual, greatest }) => Number(least) <= Number(usual) && Number(usual) <= Number(greatest),
    'least, usual, and greatest, in that order',
  )

/** One way to dress a bed. Densities are in lb per yd³ | kg per m³. */
export const finish = z.object({
  slug: slug(),
  name: nameOf(read),
  depth: together(depth, {
    label: 'Depth',
    words: '{least} to {greatest} {depth}, usually {usual}',
    source: COMMON,
  }),
  hatch: choice(
    'hatch',
    'How it’s drawn',
    { shreds: 'Short strokes', chips: 'Chips', straw: 'Long strokes', dots: 'Dots', pebbles: 'Pebbles' },
    { ...read, start: 'shreds' },
  ),
  swatch: declared(z.string().regex(/^#[0-9a-fA-F]{6}$/, 'a color such as #8a5a2b'), {
    ...read,
    kind: 'colour',
    name: 'swatch',
    label: 'Color',
    start: '#7a5a3c',
    meaning: 'Such as #8a5a2b.',
  }),
  /** The SHA-256 of the stored picture. */
  photo: declared(z.string().refine(isPhotoName, 'the name of a photo, 64 hexadecimal digits').nullable(), {
    kind: 'photo',
    name: 'photo',
    label: 'The name of its photo',
    meaning: 'Leave it as it is. Empty: the drawing is shown.',
    before: null,
  }),
  pricedBy: choice(
    'priced by',
    'Priced by',
    { rate: 'rates of its own', cost: 'what it costs you, plus your margin' },
    { ...price, before: 'rate', inFiles: 'Rates are those of rates.csv.' },
  ),
  // The oldest tables still hold a `soldBy` that was taken out of use: it isn't this.
  saleUnit: choice(
    'sold by',
    'Sold by',
    {
      volume: 'the cubic yard or cubic meter',
      bale: 'the bale',
      ton: 'the ton',
      area: 'the square foot or square meter, at a depth',
    },
    { ...sold, before: 'volume', meaning: 'You and homeowners see amounts of it in this unit.' },
  ),
  baleCovers: figureOrNone('bale covers', 'A bale covers', {
    ...sold,
    unit: '{area}',
    above: 0,
    meaning: 'If it’s sold by the bale.',
  }),
  soldDepth: figureOrNone('sold depth', 'At this depth', {
    ...sold,
    unit: '{depth}',
    above: 0,
    meaning: 'Of a bale, or of a square foot or meter.',
  }),
  soldDensity: figureOrNone('sold density', 'Weight as sold', {
    ...sold,
    unit: '{weight} per {bulk}',
    above: 0,
    meaning: 'If it’s sold by the ton.',
  }),
  ratesPer: choice(
    'rates per',
    'Your rates are for each',
    { volume: 'cubic yard or cubic meter', sold: 'unit it’s sold in' },
    { ...price, before: 'volume', meaning: 'If you change this, type the rates in the other unit too.' },
  ),
  materialCost: figureOrNone('material cost', 'What it costs you', {
    ...price,
    unit: '{money}',
    secret: true,
    meaning: 'Only if you list no packs of it. With it, you see your margin.',
  }),
  materialCostPer: choice(
    'material cost per',
    'That’s for each',
    { volume: 'cubic yard or cubic meter', sold: 'unit it’s sold in' },
    { ...price, before: 'volume', meaning: 'If you change this, type the cost in the other unit too.' },
  ),
  /** One pair for each size of job. */
  rates: together(
    z
      .array(
        span(['lower', 'upper'], 'Rate', {
          ...price,
          unit: '{money} per {sold}',
          start: '0',
          secret: true,
          inFiles: 'For each unit it is sold in, where finishes.csv says so.',
        }),
      )
      .min(1),
    {
      label: 'Price',
      source: INVENTED,
      handful: true,
      idle: ({ pricedBy }: { pricedBy: string }) => pricedBy !== 'rate',
    },
  ),
  packs,
  pinned: pinned(),
  densityDry: figureOrNone('dry density', 'Weight when dry', {
    ...material,
    unit: '{weight} per {bulk}',
    above: 0,
    meaning: 'With it, loads are figured by weight.',
  }),
  densityWet: figureOrNone('wet density', 'Weight when wet', {
    ...material,
    unit: '{weight} per {bulk}',
    above: 0,
    meaning: 'With it, you are warned before a truck is overloaded.',
    source: COMMON,
    key: 'weight',
  }),
  thinnestTopUp: figureOrNone('thinnest top-up', 'Its own thinnest top-up', {
    ...material,
    unit: '{depth}',
    above: 0,
    meaning: 'Empty: the same as for all finishes.',
  }),
  allowance: shareOrNone('allowance', 'Its own allowance for settling and waste', {
    ...material,
    meaning: 'Empty: the same as for all finishes.',
  }),
  materialShare: shareOrNone('material share', 'Share of its price shown as material', {
    ...price,
    meaning: 'If sales tax makes you show labor on its own line. Empty: one line.',
  }),
  /** From the top down. */
  layers: layersBeneath(beneath),
  layersOptional: yes('layers optional', 'Homeowners may leave that out', {
    ...beneath,
    before: false,
    meaning: 'If not, it’s always part of their price.',
  }),
  offered: yes('offered', 'Show it to homeowners', {
    ...picked,
    meaning: 'If not, only you can price with it.',
    before: true,
  }),
  soldOut: yes('sold out', 'Sold out for now', {
    ...picked,
    meaning: 'Homeowners can’t pick it then.',
    before: false,
  }),
  substitutes: declared(z.array(plainSlug()), {
    heading: 'When it’s sold out',
    kind: 'slugs',
    name: 'substitutes',
    label: 'Substitute',
    meaning: 'The closest match when it’s sold out.',
    before: [],
  }),
  cautions: cautionTicks(),
})
