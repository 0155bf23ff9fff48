import type { PackOf } from '../db/schema/goods.ts'
import type { Language } from '../language/language.ts'

/** What is kept of things to take along, one a line: 'Rake / Rastrillo'. */
export interface ThingsAlong {
  of: PackOf | 'always'
  slug: string
  things: string
}

/** A thing to take along: by what it is ticked, and what it is called. */
export interface Thing {
  value: string
  words: string
}

/** Everything to take along for these materials and extras, each thing once, what is always taken first. */
export function thingsFor(
  all: ThingsAlong[],
  wanted: { of: PackOf; slug: string }[],
  language: Language,
): Thing[] {
  const goes = ({ of, slug }: ThingsAlong) =>
    of === 'always' || wanted.some(one => one.of === of && one.slug === slug)
  const order = { always: 0, finish: 1, extra: 2 }
  const lines = all
    .filter(goes)
    .sort((a, b) => order[a.of] - order[b.of])
    .flatMap(({ things }) =>
      things
        .split('\n')
        .map(line => line.trim())
        .filter(Boolean),
    )
  return [...new Set(lines)].map(value => ({ value, words: inLanguage(value, language) }))
}

function inLanguage(line: string, language: Language): string {
  const [en = '', es = ''] = line.split('/').map(part => part.trim())
  return language === 'es' && es !== '' ? es : en
}
