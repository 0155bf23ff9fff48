import type { z } from 'zod'
import type { Extra, Finish, RateTable } from '../../../estimate/table/rate-table.ts'
import { withoutLost } from '../../../estimate/table/substitutes.ts'
import { startOf } from '../../../estimate/table/values.ts'
import { anyText, choice } from '../entries.ts'
import type { Section } from '../section.ts'

const LONGEST_SLUG = 40

/** A form that puts the finishes or the extras in order, takes some out, and adds one that starts like another. */
export function listOfThings(of: {
  key: string
  list: 'finishes' | 'extras'
  one: string
  title: string
  adds: string
  table: RateTable
  /** The schema of one of them. */
  entry: z.ZodType
}): Section {
  const { key, list, one, title, adds, table, entry } = of
  const things = table[list]
  const like = choice(
    ['', `a blank ${one.toLowerCase()}`],
    ...things.map(({ slug, name }): [string, string] => [slug, name.en]),
  )
  return {
    key,
    title,
    adds,
    holds: things.map(({ name }) => name.en).join(', ') || 'none yet',
    base: '',
    parts: [{ list, one, fields: () => [], blank: {}, ordered: true, fixed: true }],
    besides: [
      { path: 'new.en', label: `New ${one.toLowerCase()}: name in English`, entry: anyText },
      { path: 'new.es', label: 'Name in Spanish', entry: anyText },
      { path: 'new.like', label: 'Start from', entry: like },
    ],
    besideValues: { 'new.en': '', 'new.es': '', 'new.like': things[0]?.slug ?? '' },
    close: (changed, typed, fault, before) => {
      const kept = withoutLost(changed)
      const [en, es] = ['new.en', 'new.es'].map(name => (typed[name] ?? '').trim())
      if (!en && !es) return kept
      const slug = slugOf(en!)
      if (!en) fault('new.en', 'Give the name in English too.')
      else if (!es) fault('new.es', 'Give the name in Spanish too.')
      else if (!slug) fault('new.en', 'Give a name with letters in it.')
      else if (before[list].some(thing => thing.slug === slug))
        fault('new.en', `There’s already one named “${en.slice(0, 40)}”.`)
      else addThing(kept, list, { slug, name: { en, es } }, typed['new.like'] ?? '', before, entry)
      return kept
    },
  }
}

function addThing(
  table: RateTable,
  list: 'finishes' | 'extras',
  own: { slug: string; name: { en: string; es: string } },
  like: string,
  before: RateTable,
  entry: z.ZodType,
): void {
  const start = before[list].find(thing => thing.slug === like)
  const blank = startOf(entry, table.units)
  if (list === 'extras') {
    table.extras.push({ ...structuredClone((start ?? blank) as Extra), ...own })
    return
  }
  const { rates, substitutes, ...rest } = structuredClone((start ?? blank) as Finish)
  table.finishes.push({
    ...rest,
    ...own,
    photo: null,
    soldOut: false,
    rates: ['', ...table.tiers].map((_, column) => rates[column] ?? { lower: '0', upper: '0' }),
    substitutes: substitutes.filter(other => table.finishes.some(one => one.slug === other)),
  })
}

/** A short name of its own from one that people read: "Corteza, fina" gives corteza-fina. */
export function slugOf(name: string): string {
  return name
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST_SLUG)
    .replace(/^-+|-+$/g, '')
}
