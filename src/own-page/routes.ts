import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { callOff, mayCallOff } from '../bookings/call-off.ts'
import { findWhyEnded, showEnded } from '../bookings/ended.ts'
import { showAccepted } from '../bookings/show-accepted.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { FormReading } from '../http/posted.ts'
import { FEW_A_MINUTE, MANY_A_MINUTE } from '../http/rate-limits.ts'
import { type Key, t, translator } from '../language/catalogue.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { findHeld } from '../payments/queries.ts'
import { requireStanding } from '../rates/standing.ts'
import { changePhone } from '../requests/changed-by-homeowner.ts'
import { EnoughToday } from '../requests/enough-today.ts'
import { photoFields } from '../requests/photos/form.ts'
import { chargeForBeds } from '../requests/within-budget.ts'
import { billOfOwnRoutes } from './bill-routes.ts'
import { ownCalendar } from './calendar.ts'
import { confirmRoutes } from './confirm-routes.ts'
import { dayRoutes } from './day-routes.ts'
import { readAddedNote, readNewPhone, readPhoneForTexts, readWhyOff } from './form.ts'
import { type ByToken, openOwn, pageOf, pathOf, requireByToken, requireOwn } from './open.ts'
import { photoRoutes } from './photo-routes.ts'
import { textLink } from './text-link.ts'
import type { OwnPage } from './view.ts'
import { visitOfOwnRoutes } from './visit-routes.ts'
import { changeWishes, readWishes } from './wishes.ts'

declare module '../http/render.ts' {
  interface Views {
    'own-page/show': OwnPage
    /** What was paid for it, in words, null where nothing is held; what becomes of that the staff say. */
    'own-page/call-off': {
      number: string
      booked: boolean
      held: string | null
      back: string
      action: string
    }
  }
}

const CONFIG = { access: 'link', ...MANY_A_MINUTE } as const
const CHANGES = { access: 'link', ...FEW_A_MINUTE } as const

/** The homeowner's own page, behind a link that nobody can guess, and the page that confirms the mail address. */
export function ownPageRoutes(app: FastifyInstance, deps: Deps): void {
  confirmRoutes(app, deps)
  dayRoutes(app, deps, request => requireByToken(request, deps))
  visitOfOwnRoutes(app, deps, request => requireByToken(request, deps))
  billOfOwnRoutes(app, deps, request => requireByToken(request, deps))
  photoRoutes(app, deps, {
    requireByToken: request => requireByToken(request, deps),
    showAgain: async (request, reply, refusal, photos) => {
      const page = await pageOf(request, deps, await requireOwn(request, deps))
      const { most = 0, address } = page.photoFields ?? {}
      return refuse(
        reply,
        { ...page, photoFields: photoFields(most, photos.kept, photos.open, address) },
        refusal,
      )
    },
  })
  app.get<ByToken>('/r/:token', { config: CONFIG }, async (request, reply) => {
    const ended = await findWhyEnded(deps, 'own page', request.params.token)
    if (ended) return showEnded(reply, ended)
    const own = await openOwn(request, deps)
    chargeForBeds(deps, request, reply, own.beds)
    return reply.page('own-page/show', await own.page())
  })

  app.get<ByToken>('/r/:token/accepted', { config: CONFIG }, async (request, reply) => {
    const back = pathOf(request)
    const quoteRequestId = await requireByToken(request, deps)
    const shown = { quoteRequestId, address: `${back}/accepted`, back, isStaff: false }
    return showAccepted(deps, request, reply, { ...shown, language: languageOf(request) })
  })

  app.get<ByToken>('/r/:token/calendar.ics', { config: CONFIG }, async (request, reply) => {
    const own = await requireOwn(request, deps)
    const { business } = await requireStanding(deps)
    const calendar = await ownCalendar(deps, business, own, pathOf(request), languageOf(request))
    if (!calendar) return reply.redirect(pathOf(request), 303)
    return reply.type('text/calendar; charset=utf-8').send(calendar)
  })

  app.post<ByToken>('/r/:token/phone', { config: CHANGES }, async (request, reply) => {
    const own = await openOwn(request, deps)
    const hasEmail = own.email !== ''
    const reading = readNewPhone(new FormFields(request.body), hasEmail, translator(languageOf(request)))
    if (!reading.ok) return refuse(reply, await own.page(), reading)
    const enough = await enoughOf(request, 'phone', () => own.changePhone(reading.values.phone))
    if (enough) return refuse(reply, await own.page(), enough, 429)
    return done(request, reply, pathOf(request), 'own.phone-changed')
  })

  app.post<ByToken>('/r/:token/text', { config: CHANGES }, async (request, reply) => {
    const own = await requireOwn(request, deps)
    if (own.phone === '') {
      const reading = readPhoneForTexts(new FormFields(request.body), translator(languageOf(request)))
      if (!reading.ok) return refuse(reply, await pageOf(request, deps, own), reading)
      const { phone } = reading.values
      const enough = await enoughOf(request, 'phone', () => changePhone(deps, own.id, phone))
      if (enough) return refuse(reply, await pageOf(request, deps, own), enough, 429)
    }
    await textLink(deps, own.id)
    return done(request, reply, pathOf(request), 'own.texted')
  })

  app.post<ByToken>('/r/:token/note', { config: CHANGES }, async (request, reply) => {
    const own = await openOwn(request, deps)
    const reading = readAddedNote(new FormFields(request.body), translator(languageOf(request)))
    if (!reading.ok) return refuse(reply, await own.page(), reading)
    const enough = await enoughOf(request, 'note', () => own.addNote(reading.values.note))
    if (enough) return refuse(reply, await own.page(), enough, 429)
    return done(request, reply, pathOf(request), 'own.note-added')
  })

  app.post<ByToken>('/r/:token/wishes', { config: CHANGES }, async (request, reply) => {
    const own = await requireOwn(request, deps)
    const { business } = await requireStanding(deps)
    const say = translator(languageOf(request))
    const words = {
      mail: say('offers.mail', { business: business.name }),
      text: say('offers.text', { business: business.name }),
    }
    await changeWishes(deps, own, readWishes(new FormFields(request.body)), words)
    return done(request, reply, pathOf(request), 'offers.saved')
  })

  app.get<ByToken>('/r/:token/call-off', { config: CONFIG }, async (request, reply) => {
    const { id, number, stage } = await requireOwn(request, deps)
    const ownPath = pathOf(request)
    if (!mayCallOff(stage)) return reply.redirect(ownPath, 303)
    const { business } = await requireStanding(deps)
    const held = await findHeld(deps.db, id)
    return reply.page('own-page/call-off', {
      number,
      booked: stage === 'booked',
      held: Number(held) > 0 ? moneyInWords(held, business.currency, languageOf(request)) : null,
      back: ownPath,
      action: `${ownPath}/call-off`,
    })
  })

  app.post<ByToken>('/r/:token/call-off', { config: CHANGES }, async (request, reply) => {
    const id = await requireByToken(request, deps)
    await callOff(deps, id, readWhyOff(new FormFields(request.body)))
    return done(request, reply, pathOf(request), 'own.called-off')
  })
}

type Refused = FormReading<unknown> & { ok: false }

function refuse(reply: FastifyReply, page: OwnPage, { typed, errors }: Refused, status = 422) {
  const values = { ...page.values, ...typed }
  return reply.page('own-page/show', { ...page, values, here: page.ownPath, errors }, status)
}

/** Does what was sent; gives what was typed, with why beside its field, where enough was sent today. */
async function enoughOf(
  request: FastifyRequest,
  field: string,
  act: () => Promise<void>,
): Promise<Refused | undefined> {
  try {
    await act()
  } catch (error) {
    if (!(error instanceof EnoughToday)) throw error
    const { typed } = new FormFields(request.body)
    return { ok: false, typed, errors: { [field]: t(languageOf(request), error.key) } }
  }
}

function done(request: FastifyRequest, reply: FastifyReply, path: string, key: Key) {
  say(reply, t(languageOf(request), key))
  return reply.redirect(path, 303)
}
