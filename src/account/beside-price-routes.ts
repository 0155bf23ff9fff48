import type { FastifyInstance, FastifyReply } from 'fastify'
import { amountTyped } from '../business/amount-asked.ts'
import { changeBesidePrice, QUESTIONS, readBesidePrice } from '../business/answers.ts'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { t } from '../language/catalogue.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/beside-price': {
      questions: { name: string; label: string }[]
      /** Whether the business works in the United States. */
      inStates: boolean
      values: Typed
    }
  }
}

const owner = { config: { access: 'owner' } } as const

/** What homeowners read beside a price, in the owner's words. */
export function besidePriceRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/settings/prices', owner, (_request, reply) => show(deps, reply))

  app.post('/settings/prices', owner, async (request, reply) => {
    const reading = readBesidePrice(new FormFields(request.body))
    if (!reading.ok) return show(deps, reply, reading)
    await changeBesidePrice(deps, reading.values)
    say(reply, 'Saved. Every price shows it from now on.')
    return reply.redirect('/settings/prices', 303)
  })
}

async function show(deps: Deps, reply: FastifyReply, again?: { typed: Typed; errors: Errors }) {
  const { answers, show_rates, deposits, country } = await requireBusiness(deps.db)
  const kept = Object.fromEntries(
    QUESTIONS.flatMap(name =>
      (['en', 'es'] as const).map(language => [
        `answers.${name}.${language}`,
        answers[name]?.[language] ?? '',
      ]),
    ),
  )
  const values = again?.typed ?? {
    ...kept,
    ...(show_rates ? { showRates: 'yes' } : {}),
    ...(deposits.holdsDay ? {} : { depositFirst: 'yes' }),
    depositCap: amountTyped(deposits.cap),
    noticeEn: deposits.notice.en,
    noticeEs: deposits.notice.es,
  }
  const inStates = country === 'US'
  const questions = QUESTIONS.map(name => ({ name, label: t('en', `booking.answer-${name}`) }))
  const status = again ? 422 : 200
  return reply.page(
    'account/beside-price',
    { questions, inStates, values, errors: again?.errors ?? {} },
    status,
  )
}
