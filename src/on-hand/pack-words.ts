import type { PackOf } from '../db/schema/goods.ts'
import type { ExtraPack, Pack } from '../estimate/table/pack.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { quantityInWords } from '../language/quantity-in-words.ts'

/** A pack of a material or an extra as the rate table names it. */
export interface PackNamed {
  of: PackOf
  slug: string
  pack: string
}

/** What packs are listed for, in the order of the table. */
export function packsListed(table: RateTable): PackNamed[] {
  const named = (of: PackOf) => (thing: { slug: string; packs: { slug: string }[] }) =>
    thing.packs.map(pack => ({ of, slug: thing.slug, pack: pack.slug }))
  return [...table.finishes.flatMap(named('finish')), ...table.extras.flatMap(named('extra'))]
}

/** What a pack is of; its own name where the table has it no more. */
export function nameOfThing({ of, slug }: PackNamed, table: RateTable, language: Language): string {
  const things = of === 'finish' ? table.finishes : table.extras
  return things.find(thing => thing.slug === slug)?.name[language] ?? slug
}

/** What a pack is called at the yard. */
export function nameOfPack(named: PackNamed, table: RateTable, language: Language): string {
  return packOf(named, table)?.name[language] ?? named.pack
}

/** The pack in the table; undefined where it was taken out. */
export function packOf({ of, slug, pack }: PackNamed, table: RateTable): Pack | ExtraPack | undefined {
  const things: { slug: string; packs: (Pack | ExtraPack)[] }[] =
    of === 'finish' ? table.finishes : table.extras
  return things.find(thing => thing.slug === slug)?.packs.find(one => one.slug === pack)
}

/** So many of a pack: '12 × 2 ft³ bag', or of what is loose '1.5 cubic yards'. */
export function unitsOfPack(units: string, named: PackNamed, table: RateTable, language: Language): string {
  const pack = packOf(named, table)
  const { bulk, ton } = unitSystem(table.units)
  if (pack?.kind === 'bulk') return quantityInWords(units, bulk, language, 3)
  if (pack?.kind === 'weighed') return quantityInWords(units, ton, language, 3)
  return t(language, 'hand.packs', {
    units: figureInWords(units, language, 3),
    pack: nameOfPack(named, table, language),
  })
}
