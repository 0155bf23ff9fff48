import { z } from 'zod'
import { formGive, inBeds, inMeasuring, layer, takenUp, takenUpGive, way } from './bed-figures.ts'
import { caution } from './caution.ts'
import { extra } from './extra.ts'
import { carrier, fetching } from './fetching.ts'
import { finish } from './finish.ts'
import {
  decimal,
  declared,
  figure,
  figureOrNone,
  INVENTED,
  named,
  postcodes,
  share,
  together,
} from './row.ts'
import { tax } from './tax.ts'
import { costPlus, costs, floors, labor, person } from './work-figures.ts'

const prices = { section: 'prices' }
const lyingThere = {
  ...inBeds,
  heading: 'Depth of old mulch, give or take',
  unit: '{depth}',
  words: 'give or take {} {depth}',
}
const AS_USUAL = 'Empty: as set under Labor.'
const ranges = { section: 'ranges', source: INVENTED }
// Of 1,024 scenarios too few are left beyond the ends of a higher one for these to be told well.
const MOST_PROMISED = 0.95

/**
 * The contractor's prices and working rates: every figure is declared here once, and forms, files, differences, what is
 * looked at, the schema and the guide follow. Every figure is a decimal as text.
 */
export const rateFigures = z.object({
  units: declared(z.enum(['us', 'metric']), {
    kind: 'choice',
    name: 'units',
    label: 'Units',
    meaning: 'us or metric. Stays as it is.',
  }),
  currency: declared(z.string().regex(/^[A-Z]{3}$/, 'three capital letters (ISO 4217)'), {
    kind: 'slug',
    name: 'currency',
    label: 'Currency',
    meaning: 'Three letters. Stays as it is.',
  }),
  finishes: z.array(finish),
  extras: z.array(extra),
  minimumCharge: figure('minimum charge', 'Minimum charge for a job', {
    ...prices,
    unit: '{money}',
    start: '0',
    invented: { us: '175', metric: '160' },
    handful: true,
    source: INVENTED,
  }),
  tiers: declared(z.array(decimal({ above: 0 })), {
    ...prices,
    file: 'job-sizes.csv',
    kind: 'figures',
    name: 'from size',
    label: 'Job sizes where different rates start',
    unit: '{bulk}',
    start: [],
    secret: true,
    onForms:
      'For example 5; 10. Each new size starts with the rates of the next smaller one. Change them under each finish.',
    inFiles: 'Each has its rates in rates.csv.',
  }),
  travel: z.array(
    z.object({
      postcodes: postcodes(),
      charge: figure('charge', 'Travel charge', { unit: '{money}' }),
      drive: figureOrNone('drive', 'Driving there and back', { unit: 'h', to: 24, meaning: AS_USUAL }),
      driven: figureOrNone('driven', 'How far that is', { unit: '{far}', meaning: AS_USUAL }),
    }),
  ),
  allowance: share('allowance', 'Allowance for settling and waste', { ...inBeds, start: '0.05' }),
  thinnestTopUp: figure('thinnest top-up', 'Thinnest top-up', {
    ...inBeds,
    unit: '{depth}',
    above: 0,
    start: { us: '1', metric: '2.54' },
    meaning: 'A thinner layer can’t be spread.',
  }),
  measuring: z.object({
    tape: way('tape', 'with a tape', '0.02', '0'),
    paces: way('paces', 'in paces', '0.08', '0.8'),
    eye: way('eye', 'by eye', '0.14', '0.5'),
  }),
  pace: figure('pace', 'A pace', {
    ...inMeasuring,
    unit: '{length}',
    above: 0,
    start: { us: '2.5', metric: '0.762' },
    source: named('US Army: 30 in'),
  }),
  forms: z.object({
    plain: formGive('off in form, plain', 'How far off the area of a plain shape is', '0.04'),
    curvy: formGive('off in form, curvy', 'How far off the area of a curvy shape is', '0.10'),
  }),
  lying: z.object({
    bare: layer('bare', 'bare', ['0', '0'], ['0', '0']),
    thin: layer('thin', 'thin', ['0.5', '1.27'], ['0.125', '0.3175']),
    fair: layer('fair', 'fair', ['1', '2.54'], ['0.25', '0.635']),
    thick: layer('thick', 'thick', ['2', '5.08'], ['0.25', '0.635']),
    unsure: layer('unsure', 'not sure', ['1', '2.54'], ['0.5', '1.27']),
  }),
  lyingTold: figure('told depth, give or take', 'Depth of old mulch, as described', {
    ...lyingThere,
    start: { us: '0.25', metric: '0.635' },
  }),
  lyingMeasured: figure('measured depth, give or take', 'Depth of old mulch, as measured', {
    ...lyingThere,
    start: { us: '0.1', metric: '0.254' },
  }),
  planted: z.object({
    open: takenUp('open', 'few', '0'),
    half: takenUp('half', 'half', '0.15'),
    full: takenUp('full', 'full', '0.30'),
  }),
  plantedGive: z.object({
    open: takenUpGive('open', 'few', '0.02'),
    half: takenUpGive('half', 'half', '0.05'),
    full: takenUpGive('full', 'full', '0.08'),
  }),
  promise: share('promise', 'Jobs that land inside their price range', {
    ...ranges,
    meaning: 'From 50% to 95%: more than that no range of rough sizes can keep.',
    from: 0.5,
    to: MOST_PROMISED,
    start: '0.80',
  }),
  step: figure('step', 'Price ranges are rounded to', {
    ...ranges,
    unit: '{money}',
    above: 0,
    start: '10',
  }),
  labor,
  carriers: z.array(carrier),
  fetching,
  people: z.array(person),
  costs,
  costPlus: together(costPlus, {
    label: 'Added to cost as a {by}',
    of: ['share'],
    words: '{share}',
    key: 'costPlus.{by}',
    source: INVENTED,
    idle: ({ finishes }: { finishes: { pricedBy: string }[] }) =>
      finishes.every(({ pricedBy }) => pricedBy === 'rate'),
  }),
  floors,
  tax: tax.nullable(),
  cautions: z.array(caution),
})

/** The contractor's prices and working rates, one version. Every figure is a decimal string. */
export interface RateTable extends z.infer<typeof rateFigures> {}
export type Finish = z.infer<typeof finish>
export type Extra = z.infer<typeof extra>
/** A lower and an upper figure: every scenario of a ballpark stands somewhere between, a firm price in the middle. */
export type Span = Finish['rates'][number]
export type Measuring = keyof RateTable['measuring']
export type Planted = keyof RateTable['planted']
export type FormName = keyof RateTable['forms']
export type LyingName = keyof RateTable['lying']
export type Person = RateTable['people'][number]
export type Carrier = RateTable['carriers'][number]
