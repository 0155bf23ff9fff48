import type { RateTable } from '../estimate/table/rate-table.ts'
import { type Choices, type Pick, type Taken, takenOf } from '../estimate/understood/choices.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { depthInWords } from '../requests/layers-in-words.ts'
import type { QuoteWithLines } from './queries.ts'

/** Choices as they are read: of a pick what it is about and its two ways, and each add-on. */
export interface ChoicesInWords {
  picks: { about: string; asIs: string; other: string }[]
  addOns: string[]
}

type Chosen = { [Field in 'choices' | 'picked' | 'job']: QuoteWithLines[Field] }

/** What may be chosen, in words; the names are those of the rate table that it was offered with. */
export function choicesInWords(
  { picks, addOns }: Choices,
  beds: number,
  table: RateTable,
  language: Language,
): ChoicesInWords {
  return {
    picks: picks.map(pick => ({
      about: aboutInWords(pick, beds, language),
      asIs: wayInWords(pick, pick.was, table, language),
      other: wayInWords(pick, pick, table, language),
    })),
    addOns: addOns.map(({ extra: slug, bed }) => {
      const extra = table.extras.find(one => one.slug === slug)?.name[language] ?? slug
      return bed === null ? extra : t(language, 'choose.add-for-bed', { extra, n: bed + 1 })
    }),
  }
}

/** What was taken, a line each: 'Material for all beds: Bark', 'Added: Edging', 'Not added: Weeding'. */
function takenInWords(words: ChoicesInWords, { picks, addOns }: Taken, language: Language): string[] {
  return [
    ...words.picks.map(({ about, asIs, other }, index) =>
      t(language, 'choose.picked', { about, way: picks[index] ? other : asIs }),
    ),
    ...words.addOns.map((extra, index) =>
      t(language, addOns[index] ? 'choose.added' : 'choose.not-added', { extra }),
    ),
  ]
}

/** What was picked of a quote's choices, a line each; none where there were no choices, or nothing was picked yet. */
export function pickedInWords(
  { choices, picked, job }: Chosen,
  table: RateTable,
  language: Language,
): string[] {
  const taken = choices && picked !== null ? takenOf(picked, choices) : undefined
  if (!choices || !taken) return []
  return takenInWords(choicesInWords(choices, job.beds.length, table, language), taken, language)
}

function aboutInWords({ bed, finish, depth }: Pick, beds: number, language: Language): string {
  const both = finish !== null && depth !== null
  const what = t(language, both ? 'choose.finish-depth' : finish !== null ? 'choose.finish' : 'choose.depth')
  if (beds === 1) return what
  return bed === null
    ? t(language, 'choose.for-all', { what })
    : t(language, 'choose.for-bed', { what, n: bed + 1 })
}

function wayInWords(asked: Pick, way: Pick['was'], table: RateTable, language: Language): string {
  const finish = asked.finish && nameOf(way.finish, table, language)
  const depth = asked.depth && way.depth && depthInWords(way.depth, table, language)
  const isMissing = (asked.finish !== null && !finish) || (asked.depth !== null && !depth)
  if (isMissing) return t(language, 'choose.as-listed')
  return finish && depth ? t(language, 'beds.layer-deep', { finish, depth }) : (finish ?? depth ?? '')
}

function nameOf(slug: string | null, { finishes }: RateTable, language: Language): string | null {
  return finishes.find(finish => finish.slug === slug)?.name[language] ?? slug
}
