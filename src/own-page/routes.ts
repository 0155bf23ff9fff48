import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { z } from 'zod'
import { callOff, mayCallOff } from '../bookings/call-off.ts'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { languageOf } from '../http/language.ts'
import { textOf } from '../http/nested-fields.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { type Key, keyIn, t } from '../language/catalogue.ts'
import { oneLine } from '../lib/typed-text.ts'
import { addNote, changePhone } from '../requests/changed-by-homeowner.ts'
import { note, phone } from '../requests/contact-form.ts'
import { findByToken } from '../requests/links.ts'
import { type OwnPage, viewOwnPage } from './view.ts'

declare module '../http/render.ts' {
  interface Views {
    'own-page/show': OwnPage
    'own-page/call-off': { number: string; booked: boolean; back: string; action: string }
  }
}

type ByToken = { Params: { token: string } }

const CONFIG = { access: 'link', rateLimit: { max: 120, timeWindow: '1 minute' } } as const
const CHANGES = { access: 'link', ...FEW_A_MINUTE } as const

/** The homeowner's own page, behind a link that nobody can guess. */
export function ownPageRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<ByToken>('/r/:token', { config: CONFIG }, async (request, reply) =>
    reply.page('own-page/show', await ownPage(request, deps)),
  )

  app.post<ByToken>('/r/:token/phone', { config: CHANGES }, async (request, reply) => {
    const page = await ownPage(request, deps)
    const typed = phone.safeParse(fieldOf(request, 'phone'))
    const missing = typed.data === '' && page.request.email === ''
    const fault = missing ? 'contact.phone-or-email' : faultOf(typed.error)
    if (fault) return refuse(request, reply, page, 'phone', fault)
    await changePhone(deps, page.request.id, typed.data!)
    return done(request, reply, page.ownPath, 'own.phone-changed')
  })

  app.post<ByToken>('/r/:token/note', { config: CHANGES }, async (request, reply) => {
    const page = await ownPage(request, deps)
    const typed = note.safeParse(fieldOf(request, 'note'))
    const fault = typed.data === '' ? 'own.note-missing' : faultOf(typed.error)
    if (fault) return refuse(request, reply, page, 'note', fault)
    await addNote(deps, page.request.id, typed.data!)
    return done(request, reply, page.ownPath, 'own.note-added')
  })

  app.get<ByToken>('/r/:token/call-off', { config: CONFIG }, async (request, reply) => {
    const page = await ownPage(request, deps)
    const { number, stage } = page.request
    if (!mayCallOff(stage)) return reply.redirect(page.ownPath, 303)
    return reply.page('own-page/call-off', {
      number,
      booked: stage === 'booked',
      back: page.ownPath,
      action: `${page.ownPath}/call-off`,
    })
  })

  app.post<ByToken>('/r/:token/call-off', { config: CHANGES }, async (request, reply) => {
    const id = await requireByToken(request, deps)
    await callOff(deps, id, oneLine(fieldOf(request, 'reason')).slice(0, 500))
    return done(request, reply, pathOf(request), 'own.called-off')
  })
}

async function requireByToken(request: FastifyRequest<ByToken>, deps: Deps): Promise<number> {
  const id = await findByToken(deps.db, 'own page', request.params.token, deps.now())
  if (id === undefined) throw new NotFound()
  return id
}

async function ownPage(request: FastifyRequest<ByToken>, deps: Deps): Promise<OwnPage> {
  const id = await requireByToken(request, deps)
  const business = await requireBusiness(deps.db)
  return viewOwnPage(deps, business, id, pathOf(request), languageOf(request))
}

function pathOf(request: FastifyRequest<ByToken>): string {
  return `/r/${request.params.token}`
}

function fieldOf(request: FastifyRequest, name: string): string {
  return textOf((request.body as Record<string, unknown> | undefined)?.[name])
}

function faultOf(error: z.ZodError | undefined): Key | undefined {
  const message = error?.issues[0]?.message
  return message === undefined ? undefined : keyIn(message)
}

function refuse(
  request: FastifyRequest<ByToken>,
  reply: FastifyReply,
  page: OwnPage,
  field: 'phone' | 'note',
  fault: Key,
) {
  const values = { ...page.values, [field]: fieldOf(request, field) }
  return reply.page(
    'own-page/show',
    { ...page, values, here: page.ownPath, errors: { [field]: t(languageOf(request), fault) } },
    422,
  )
}

function done(request: FastifyRequest, reply: FastifyReply, path: string, key: Key) {
  say(reply, t(languageOf(request), key))
  return reply.redirect(path, 303)
}
