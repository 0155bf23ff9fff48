import { staffCautions } from '../estimate/ballpark/staff-cautions.ts'
import type { Job } from '../estimate/job/bed.ts'
import type { Shopping } from '../estimate/packs/shopping.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { cautionInWords, sourceInWords } from '../language/caution-in-words.ts'
import type { Language } from '../language/language.ts'

/** A warning as the staff read it, and whose advice or rule it is. */
export interface CautionView {
  text: string
  source: string
}

/** What to watch out for on a job, with what is bought for it. */
export function viewCautions(
  job: Job,
  shopping: Shopping,
  table: RateTable,
  language: Language = 'en',
): CautionView[] {
  return staffCautions(job, shopping, table).map(({ about, ...caution }) => {
    const words = cautionInWords(caution, table, language)
    const text = about ? `${about[language]}: ${words}` : words
    return { text, source: sourceInWords(caution.source, language) }
  })
}
