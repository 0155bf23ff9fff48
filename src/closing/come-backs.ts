import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { findComeBacks } from './troubles.ts'

/** What somebody is to come back for without charging, as the page Days lists it above its days. */
export interface ComeBackView {
  number: string
  words: string
  late: boolean
  who: string
}

/** All that is due up to a day, the earliest first: what wasn't done in time stays. */
export async function viewComeBacks(
  db: Kysely<Database>,
  { today, last }: { today: string; last: string },
  language: Language,
): Promise<ComeBackView[]> {
  const rows = await findComeBacks(db, last)
  return rows.map(({ day, words, number, name, street, postcode }) => {
    const late = day! < today
    const params = { day: dayInWords(day!, language), words }
    return {
      ...{ number, late },
      words: t(language, late ? 'closing.come-back-late' : 'closing.come-back', params),
      who: [name, street, postcode].filter(Boolean).join(', '),
    }
  })
}
