import { QUESTIONS } from '../business/answers.ts'
import type { Business } from '../business/queries.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'

export interface AnswerView {
  question: string
  answer: string
  /** In which language the owner answered. */
  language: Language
}

/** What the business answers to the usual questions; in English where it isn't told in the language of the page. */
export function viewAnswers({ answers }: Pick<Business, 'answers'>, language: Language): AnswerView[] {
  const own = QUESTIONS.flatMap((name): AnswerView[] => {
    const { en = '', es = '' } = answers[name] ?? {}
    const told = language === 'es' && es !== '' ? es : en
    if (told === '') return []
    return [
      {
        question: t(language, `booking.answer-${name}`),
        answer: told,
        language: told === en ? 'en' : 'es',
      },
    ]
  })
  const promise = { question: t(language, 'booking.answer-rise'), answer: t(language, 'booking.never-rises') }
  return [...own, { ...promise, language }]
}
