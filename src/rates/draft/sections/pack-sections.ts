import { type ExtraPack, type Pack, waysOf } from '../../../estimate/table/pack.ts'
import type { RateTable } from '../../../estimate/table/rate-table.ts'
import { choice, figure, figureOrNone, prices, tick } from '../entries.ts'
import type { FormField, ListPart, Section } from '../section.ts'
import { names } from './shared-fields.ts'
import { slugOf } from './things.ts'

type Thing = { slug: string; name: { en: string }; packs: (Pack | ExtraPack)[]; pinned: string | null }

const sizes: Record<string, FormField[]> = {
  bag: [{ path: 'holds', label: 'A bag holds', entry: figure, unit: '{volume}' }],
  bale: [
    { path: 'covers', label: 'A bale covers', entry: figure, unit: '{area}' },
    { path: 'deep', label: 'When it is laid so deep', entry: figure, unit: '{depth}' },
  ],
  bulk: [],
  weighed: [{ path: 'density', label: 'Weight as it is sold', entry: figure, unit: '{weight} per {bulk}' }],
  roll: [
    { path: 'width', label: 'Width of a roll', entry: figure, unit: '{length}' },
    { path: 'length', label: 'Length of a roll', entry: figure, unit: '{length}' },
    { path: 'overlap', label: 'Overlap with the one beside it', entry: figure, unit: '{length}' },
  ],
  piece: [
    { path: 'length', label: 'Length of a piece', entry: figure, unit: '{length}' },
    { path: 'stakes', label: 'Stakes that go with a piece', entry: figure },
    { path: 'stakeEach', label: 'Price of a stake', entry: figure, unit: '{money}' },
  ],
}

const counts: Record<string, string> = {
  bag: 'bags',
  bale: 'bales',
  bulk: '{bulk}',
  weighed: '{ton}',
  roll: 'rolls',
  piece: 'pieces',
}

function packFields(kind: string): FormField[] {
  const unit = counts[kind]!
  return [
    ...names,
    ...sizes[kind]!,
    {
      path: 'prices',
      label: 'Price of each',
      entry: prices,
      unit: '{money}',
      hint: 'With breaks: 0: 4.20; 40: 3.60 is 4.20 each, and 3.60 from 40 on.',
    },
    { path: 'least', label: 'Smallest order', entry: figure, unit },
    { path: 'step', label: 'Orders go up by', entry: figure, unit },
    { path: 'collected', label: 'You may fetch it', entry: tick },
    {
      path: 'delivered.fee',
      label: 'Fee to have it brought',
      entry: figureOrNone,
      unit: '{money}',
      hint: 'For the whole order, 0 if for nothing. Empty: it isn’t brought.',
    },
    {
      path: 'delivered.freeFrom',
      label: 'Brought for nothing from',
      entry: figureOrNone,
      unit,
      hint: 'Empty: never.',
    },
  ]
}

const finishKinds: ListPart['kinds'] = [
  ['bag', 'Bags'],
  ['bale', 'Bales'],
  ['bulk', 'Loose, by volume'],
  ['weighed', 'Loose, by weight'],
]
const extraKinds: ListPart['kinds'] = [
  ['roll', 'Rolls, by area'],
  ['piece', 'Pieces, by length'],
]

/** The ways to buy each finish and what each extra needs. */
export function packSections(table: RateTable): Section[] {
  const finishes = table.finishes.map((finish, index) => packSection('finishes', finish, index))
  return [...finishes, ...table.extras.map((extra, index) => packSection('extras', extra, index))]
}

function packSection(list: 'finishes' | 'extras', thing: Thing, index: number): Section {
  const pins = waysOf(thing.packs).map(({ key, pack, delivered }): [string, string] => [
    key,
    `${pack.name.en}, ${delivered ? 'brought' : 'fetched'}`,
  ])
  return {
    key: `${list === 'finishes' ? 'finish' : 'extra'}-packs.${thing.slug}`,
    title: `${thing.name.en}: packs and prices`,
    holds: thing.packs.map(({ name }) => name.en).join(', ') || 'none yet',
    adds: 'With packs in, you see what to buy, in whole packs, and what it costs.',
    base: `${list}.${index}`,
    under: true,
    parts: [
      {
        fields: [
          {
            path: 'pinned',
            label: 'Which is bought',
            entry: choice(['', 'the cheapest for the job'], ...pins),
            hint: 'A pack that you add can be picked once it is saved.',
          },
        ],
      },
      {
        list: 'packs',
        one: 'Pack',
        kinds: list === 'finishes' ? finishKinds : extraKinds,
        fields: kind => packFields(kind!),
        blank: { least: '1', step: '1', collected: true, delivered: null, prices: [] },
        ordered: true,
        mend: mendPack,
      },
    ],
    close: table => withSlugs(table, list, index),
  }
}

function mendPack(pack: Record<string, unknown>, fault: (path: string, message: string) => void): void {
  const delivered = pack.delivered as { fee: string | null; freeFrom: string | null } | null
  if (delivered?.fee !== null) return
  if (delivered.freeFrom !== null) fault('delivered.fee', 'Give the fee too, 0 if there is none.')
  pack.delivered = null
}

function withSlugs(table: RateTable, list: 'finishes' | 'extras', index: number): RateTable {
  const packs: { slug?: string; name: { en: string } }[] = table[list][index]!.packs
  for (const pack of packs.filter(one => !one.slug)) {
    const start = slugOf(pack.name?.en ?? '') || 'pack'
    let [slug, number] = [start, 2]
    while (packs.some(other => other.slug === slug)) slug = `${start}-${number++}`
    pack.slug = slug
  }
  return table
}
