import type { FastifyInstance, FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { translator } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { makeOffer, sendOffer } from './offer.ts'
import { type OffersPage, showOffers } from './page.ts'
import { findOffer, findRecipients } from './queries.ts'

declare module '../http/render.ts' {
  interface Views {
    'offers/make': OffersPage
    'offers/preview': {
      id: number
      isSent: boolean
      recipients: { name: string; number: string; how: string }[]
      mails: number
      texts: number
      postalAddress: string
      letters: { language: string; subject: string; paragraphs: string[]; text: string }[]
    }
  }
}

const OFFICE = { config: { access: 'office' } } as const
const LONGEST = { most: 1000, tooLong: 'That’s longer than 1,000 characters.' }

interface OfOne {
  Params: { id: string }
}

/** Offers to past customers who agreed to them: chosen, looked at, and sent once. */
export function offersRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/offers', OFFICE, (_request, reply) => showOffers(reply, deps))

  app.post('/offers', OFFICE, async (request, reply) => {
    const fields = new FormFields(request.body)
    const wordsEn = fields.lines('wordsEn', LONGEST)
    const wordsEs = fields.lines('wordsEs', LONGEST)
    const postalAddress = fields.lines('postalAddress', {
      most: 300,
      missing: 'Give the postal address of your business. The law asks for it in every ad.',
      tooLong: 'That’s longer than 300 characters.',
    })
    const chosen = fields.ticks('customers')
    if (chosen.length === 0) fields.fault('customers', 'Choose at least one person.')
    const reading = fields.reading({ wordsEn, wordsEs, customerIds: chosen.map(Number) })
    if (!reading.ok) return showOffers(reply, deps, { ...reading, chosen })
    await deps.db.updateTable('business').set({ postal_address: postalAddress }).execute()
    const id = await makeOffer(deps, requireAccount(request).id, reading.values)
    return reply.redirect(`/offers/${id}`, 303)
  })

  app.get<OfOne>('/offers/:id', OFFICE, (request, reply) => preview(reply, deps, idOf(request.params.id)))

  app.post<OfOne>('/offers/:id/send', OFFICE, async (request, reply) => {
    const id = idOf(request.params.id)
    const count = await sendOffer(deps, id)
    say(
      reply,
      count > 0
        ? `The offer is on its way to ${count === 1 ? '1 person' : `${count} people`}.`
        : 'This offer was sent before.',
    )
    return reply.redirect(`/offers/${id}`, 303)
  })
}

async function preview(reply: FastifyReply, deps: Deps, id: number) {
  const offer = await findOffer(deps.db, id)
  if (!offer) throw new NotFound()
  const business = await requireBusiness(deps.db)
  const recipients = await findRecipients(deps.db, id)
  const letterIn = (language: Language, words: string) => {
    const t = translator(language, business.country)
    const number = recipients.find(one => one.language === language)?.number ?? '26-0001'
    return {
      language,
      subject: t('offers.subject', { number }),
      paragraphs: [t('offers.hello-again'), words].filter(Boolean),
      text: `${business.name}: ${t('offers.brief', { number })}`,
    }
  }
  const mails = recipients.filter(({ way }) => way === 'mail').length
  return reply.page('offers/preview', {
    id,
    isSent: offer.sent_at !== null,
    recipients: recipients.map(({ name, number, way }) => ({
      name,
      number,
      how: way === 'mail' ? 'email' : 'text',
    })),
    mails,
    texts: recipients.length - mails,
    postalAddress: business.postal_address,
    letters: [letterIn('en', offer.words_en), letterIn('es', offer.words_es)],
  })
}

function idOf(told: string): number {
  const id = Number(/^\d{1,15}$/.exec(told)?.[0] ?? 0)
  if (id === 0) throw new NotFound()
  return id
}
