import type { FastifyInstance, FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { textWords } from '../outbox/text-words.ts'
import { blanksOf, CHANGEABLE, fillBlanks, findOwnWords, LANGUAGES, startWords } from '../outbox/words.ts'
import { fieldOf, keepWords, readWords } from './words-form.ts'
import { sampleOf } from './words-sample.ts'

/** A sentence as it may be changed in one language. */
interface WordsField {
  name: string
  label: string
  language: string
  blanks: string
  /** How it reads, filled in for the newest request. */
  shown: string
}

declare module '../http/render.ts' {
  interface Views {
    'outbox/words': {
      messages: { name: string; heading: string; isOwn: boolean; isOpen: boolean; fields: WordsField[] }[]
      values: Typed
    }
  }
}

const OWNER = { config: { access: 'owner' } } as const
const PAGE = '/settings/words'

interface OfMessage {
  Params: { id: string }
}

/** The owner's own words for what messages say. */
export function wordsRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, OWNER, (_request, reply) => show(reply, deps))

  app.post<OfMessage>(`${PAGE}/:id`, OWNER, async (request, reply) => {
    const message = requireMessage(request.params.id)
    const business = await requireBusiness(deps.db)
    const sample = await sampleOf(deps, business, 'en')
    const reading = readWords(new FormFields(request.body), message, business, sample)
    if (!reading.ok) return show(reply, deps, reading)
    await keepWords(deps.db, reading.values)
    say(reply, `Saved: “${message.heading}.” It counts for what goes out from now on.`)
    return reply.redirect(PAGE, 303)
  })

  app.post<OfMessage>(`${PAGE}/:id/back`, OWNER, async (request, reply) => {
    const { sentences, heading } = requireMessage(request.params.id)
    const ours = sentences.flatMap(({ key }) => LANGUAGES.map(language => ({ key, language, words: '' })))
    await keepWords(deps.db, ours)
    say(reply, `“${heading}” is as it was at first.`)
    return reply.redirect(PAGE, 303)
  })
}

function requireMessage(name: string) {
  const message = CHANGEABLE.find(one => one.name === name)
  if (!message) throw new NotFound()
  return message
}

async function show(reply: FastifyReply, deps: Deps, again: { typed?: Typed; errors?: Errors } = {}) {
  const business = await requireBusiness(deps.db)
  const errors = again.errors ?? {}
  const values: Typed = {}
  const inLanguage = Object.fromEntries(
    await Promise.all(
      LANGUAGES.map(async language => {
        const own = await findOwnWords(deps.db, language)
        return [language, { own, sample: await sampleOf(deps, business, language) }] as const
      }),
    ),
  )
  const messages = CHANGEABLE.map(({ name, heading, sentences }) => {
    const fields = sentences.flatMap(sentence =>
      LANGUAGES.map(language => {
        const { own, sample } = inLanguage[language]!
        const field = fieldOf(sentence.key, language)
        const words = own.get(sentence.key) ?? startWords(sentence, language)
        values[field] = words
        const { link, ...blanks } = sample
        const filled = fillBlanks(words, blanks)
        return {
          name: field,
          label: `${sentence.label}, ${language === 'en' ? 'English' : 'Spanish'}`,
          language,
          blanks: blanksOf(sentence)
            .map(blank => `{${blank}}`)
            .join(' '),
          shown: sentence.isText ? textWords(business.name, filled, link) : filled,
        }
      }),
    )
    const isOwn = sentences.some(({ key }) => LANGUAGES.some(language => inLanguage[language]!.own.has(key)))
    return { name, heading, isOwn, isOpen: fields.some(field => errors[field.name]), fields }
  })
  const data = { messages, values: { ...values, ...again.typed }, errors }
  return reply.page('outbox/words', data, again.errors ? 422 : 200)
}
