import type { z } from 'zod'
import { type ExtraPack, type Pack, waysOf } from '../../../estimate/table/pack.ts'
import type { RateTable } from '../../../estimate/table/rate-table.ts'
import { kindsOf, ownRows, partAt, type Row } from '../../../estimate/table/rows.ts'
import { startOf } from '../../../estimate/table/values.ts'
import { choice, orNone } from '../entries.ts'
import { formField } from '../figure-fields.ts'
import type { FormField, ListPart, Section } from '../section.ts'
import { slugOf } from './things.ts'

type Thing = { slug: string; name: { en: string }; packs: (Pack | ExtraPack)[]; pinned: string | null }

function packFields(pack: z.ZodType): FormField[] {
  return ownRows(pack)
    .flatMap(formField)
    .map(field => (field.path.startsWith('delivered.') ? { ...field, entry: orNone(field.entry) } : field))
}

const KINDS: Record<(Pack | ExtraPack)['kind'], string> = {
  bag: 'Bags',
  bale: 'Bales',
  bulk: 'Loose, by volume',
  weighed: 'Loose, by weight',
  roll: 'Rolls, by area or in strips',
  piece: 'Pieces, by length',
}

/** The ways to buy each finish and what each extra needs. */
export function packSections(table: RateTable, figures: z.ZodObject): Section[] {
  return (['finishes', 'extras'] as const).flatMap(list => {
    const entry = partAt(figures, `${list}.*`)
    const packs = packsPart(kindsOf(partAt(entry, 'packs.*')), table)
    return table[list].map((thing, index) => packSection(list, thing, index, entry, packs))
  })
}

function packsPart(kinds: Map<string, z.ZodObject>, { units }: RateTable): ListPart {
  const [first] = kinds.values()
  return {
    list: 'packs',
    one: 'Pack',
    kinds: Object.entries(KINDS).filter(([kind]) => kinds.has(kind)),
    fields: kind => packFields(kinds.get(kind!)!),
    blank: startOf(first!, units) as Record<string, unknown>,
    ordered: true,
    mend: mendPack,
  }
}

function packSection(
  list: 'finishes' | 'extras',
  thing: Thing,
  index: number,
  entry: z.ZodType,
  packs: ListPart,
): Section {
  const [pinned] = ownRows(entry).filter(({ kind }) => kind === 'pinned') as [Row]
  const pins = waysOf(thing.packs).map(({ key, pack, delivered }): [string, string] => [
    key,
    `${pack.name.en}, ${delivered ? 'delivered' : 'picked up'}`,
  ])
  return {
    key: `${list === 'finishes' ? 'finish' : 'extra'}-packs.${thing.slug}`,
    title: `${thing.name.en}: packs and prices`,
    holds: thing.packs.map(({ name }) => name.en).join(', ') || 'none yet',
    adds: 'Add packs to see what to buy, in whole packs, and what it costs.',
    base: `${list}.${index}`,
    under: true,
    parts: [
      {
        fields: [
          {
            path: pinned.path,
            label: pinned.label,
            entry: choice(['', 'the cheapest for the job'], ...pins),
            hint: 'You can pick a new pack once it’s saved.',
          },
        ],
      },
      packs,
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
