import type { Fault } from '../estimate/job/bed.ts'
import type { Finish } from '../estimate/table/rate-table.ts'
import { substitutesOf } from '../estimate/table/substitutes.ts'
import { type Key, t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { unitsInWords } from '../language/units-in-words.ts'
import type { OpenTable } from './open-table.ts'

const MOST_NAMED = 2

// Each with what comes close, and where nothing does.
interface SoldOut {
  closest: Key
  alone: Key
}
const NOTE: SoldOut = { closest: 'form.sold-out', alone: 'form.sold-out-alone' }
const FAULT: SoldOut = { closest: 'fault.finish-sold-out', alone: 'form.finish-sold-out-alone' }

/** Which finishes are sold out at present and what comes close, a sentence or two for each. */
export function soldOutNotes(table: OpenTable, language: Language): string[] {
  return table.soldOut.map(finish => withClosest(NOTE, finish, table, language))
}

/** A fault of the beds in words; of a finish that is sold out with what comes close. */
export function bedFaultInWords({ key, params }: Fault, table: OpenTable, language: Language): string {
  const gone = key === 'fault.finish-sold-out' && table.soldOut.find(({ slug }) => slug === params.finish)
  if (gone) return withClosest(FAULT, gone, table, language)
  // What was typed is said as it was typed.
  const most = params.most && { most: unitsInWords(params.most, language) }
  return t(language, key, { ...params, ...most })
}

function withClosest(said: SoldOut, finish: Finish, table: OpenTable, language: Language): string {
  const closest = substitutesOf(finish, table).slice(0, MOST_NAMED)
  const names = {
    finish: finish.name[language],
    closest: closest.map(({ name }) => name[language]).join(', '),
  }
  return t(language, closest.length > 0 ? said.closest : said.alone, names)
}
