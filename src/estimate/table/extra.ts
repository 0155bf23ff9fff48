import { z } from 'zod'
import { cautionTicks } from './caution.ts'
import { extraPacks, pinned } from './pack.ts'
import {
  COMMON,
  choice,
  declared,
  figure,
  figureOrNone,
  INVENTED,
  nameOf,
  plainSlug,
  share,
  shareOrNone,
  slug,
  span,
  together,
  UPWARD,
  upward,
  yes,
} from './row.ts'

const read = { heading: 'What people read' }
const price = { heading: 'Price', unit: '{money} for each', before: '0', secret: true }
const material = { heading: 'Material' }
const work = { heading: 'Work' }
const taxes = { heading: 'Sales tax' }

/** Work besides dressing; its rates and labor hours are per job, bed, ft²|m², ft|m of edge, or yd³|m³. */
const rows = z.object({
  slug: slug(),
  name: nameOf(read),
  per: choice(
    'per',
    'Charged by',
    {
      job: 'the job',
      bed: 'the bed',
      area: 'area',
      edge: 'length of edge',
      volume: 'volume spread',
      lying: 'volume of old material removed, loose on the truck',
    },
    { heading: 'Price', before: 'job' },
  ),
  pricedBy: choice(
    'priced by',
    'Priced by',
    { rate: 'a rate of its own', cost: 'what it costs you, plus your margin' },
    { heading: 'Price', before: 'rate' },
  ),
  lower: figure('lower', 'Rate, at least', price),
  upper: figure('upper', 'Rate, at most', price),
  group: declared(plainSlug().nullable(), {
    ...read,
    kind: 'group',
    name: 'group',
    label: 'Group',
    before: null,
    meaning:
      'A bed gets at most one extra of a group, like light or heavy weeds. Lowercase letters. Empty: no group.',
  }),
  offered: yes('offered', 'Homeowners can ask for it', {
    ...read,
    meaning: 'If not, you can only add it when you measure.',
    start: false,
    before: true,
  }),
  laborHours: span(['labor hours lower', 'labor hours upper'], 'Labor hours', {
    ...work,
    were: ['crew hours lower', 'crew hours upper'],
    unit: 'h for each',
    before: '0',
    source: INVENTED,
    key: 'hours',
  }),
  materialCost: figureOrNone('material cost', 'What its material costs you', {
    ...material,
    unit: '{money} for each',
    secret: true,
    meaning: 'Only if you list no packs of it. Empty: it needs none.',
  }),
  waste: share('waste', 'Cut off and wasted', {
    ...material,
    before: '0',
    meaning: 'That much more of its material is bought.',
  }),
  packs: extraPacks,
  pinned: pinned(),
  fluffing: figure('fluffing', 'How much old material fluffs up on the truck', {
    ...work,
    unit: 'times',
    from: 1,
    to: 3,
    before: '1',
    source: COMMON,
    meaning: '1.3 means 30% more than in the bed; 1 for anything else.',
  }),
  dumpFee: figure('dump fee', 'Dump fee', {
    ...work,
    unit: '{money} per {bulk}',
    before: '0',
    secret: true,
  }),
  taxed: choice(
    'taxed',
    'Sales tax on it',
    { usual: 'the same as on other extras', yes: 'always', no: 'never' },
    { ...taxes, before: 'usual' },
  ),
  materialShare: shareOrNone('material share', 'Share of its price shown as material', {
    ...taxes,
    meaning:
      'If sales tax treats material and labor differently. The rest is labor, on its own line. Empty: one line.',
  }),
  cautions: cautionTicks(),
})

export const extra = together(rows.refine(upward, UPWARD), {
  label: 'Price',
  key: 'price',
  of: ['lower', 'upper'],
  handful: true,
  source: INVENTED,
  idle: ({ pricedBy }: { pricedBy: string }) => pricedBy === 'cost',
})
