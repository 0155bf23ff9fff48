import { json } from '../db/json.ts'
import type { DepositSettings } from '../db/schema/payments.ts'
import type { Deps } from '../deps.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { InBoth } from '../language/language.ts'
import { readAmountAsked } from './amount-asked.ts'

const MOST = 500
const MOST_NOTICE = 4000

/** What homeowners ask beside a price, in the order in which it is answered. */
export const QUESTIONS = ['who', 'license', 'home', 'pile', 'rain'] as const
export type Question = (typeof QUESTIONS)[number]

/** What a price shows beside its sums: the owner's answers, '' where there is none, and whether its rates. */
export interface BesidePrice {
  answers: Record<Question, InBoth>
  showRates: boolean
  /** What is allowed of deposits; as it was where it isn't told. */
  deposits?: DepositSettings
}

/** Reads the fields `answers.<question>.en` and `.es`, and the tick `showRates`. */
export function readBesidePrice(fields: FormFields): FormReading<BesidePrice> {
  const answers = Object.fromEntries(
    QUESTIONS.map(question => {
      const group = fields.group('answers').group(question)
      const read = (language: 'en' | 'es') =>
        group.lines(language, { most: MOST, tooLong: `Keep it under ${MOST} characters.` })
      const both = { en: read('en'), es: read('es') }
      if (both.en === '' && both.es !== '') group.fault('en', 'Answer it in English, too.')
      return [question, both]
    }),
  ) as Record<Question, InBoth>
  return fields.reading({ answers, showRates: fields.tick('showRates'), deposits: readDeposits(fields) })
}

function readDeposits(fields: FormFields): DepositSettings {
  const typed = fields.text('depositCap')
  const cap = readAmountAsked(typed)
  if (typed !== '' && cap === null)
    fields.fault('depositCap', 'Give a percentage, such as 10%, or an amount, such as 1000.')
  const read = (language: 'En' | 'Es') =>
    fields.lines(`notice${language}`, {
      most: MOST_NOTICE,
      tooLong: `Keep it under ${MOST_NOTICE} characters.`,
    })
  const notice = { en: read('En'), es: read('Es') }
  if (notice.en === '' && notice.es !== '') fields.fault('noticeEn', 'Write it in English, too.')
  return { cap, holdsDay: !fields.tick('depositFirst'), notice }
}

/** Writes what homeowners see beside a price from now on. */
export async function changeBesidePrice(
  deps: Deps,
  { answers, showRates, deposits }: BesidePrice,
): Promise<void> {
  await deps.db
    .updateTable('business')
    .set({
      answers: json<Record<string, InBoth>>(answers),
      show_rates: showRates,
      ...(deposits && { deposits: json(deposits) }),
    })
    .execute()
}
