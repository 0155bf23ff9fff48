import { randomUUID } from 'node:crypto'
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { workOutBallpark } from '../estimate/ballpark.ts'
import type { Fault } from '../estimate/bed.ts'
import { ballparkAnswer } from '../estimate/present.ts'
import type { RateTable } from '../estimate/rate-table.ts'
import { readTold, type ToldReading } from '../estimate/read-beds.ts'
import { unitSystem } from '../estimate/units.ts'
import { Refusal, wantsJson } from '../http/errors.ts'
import { languageOf } from '../http/language.ts'
import { t } from '../language/catalogue.ts'
import { findRateTable } from '../rates/queries.ts'
import { typedContact } from './contact-form.ts'
import { contactRoutes } from './contact-routes.ts'
import { type ContactPage, viewContact } from './contact-view.ts'
import { type BedsForm, queryOf, readBedsForm, toldOf, withBedAdded, withBedTakenOut } from './form.ts'
import { type BedsPage, viewBedsForm } from './form-view.ts'
import { openTable } from './open-table.ts'
import { ownRoutes } from './own-routes.ts'

declare module '../http/render.ts' {
  interface Views {
    'requests/form': BedsPage
    'requests/closed': object
    'requests/contact': ContactPage
  }
}

/** A longer address than this is not asked of browsers and proxies; the page is then answered at once. */
const LONGEST_QUERY = 6000

/** The homeowner's form and its range, for people and for other programs. */
export function requestRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/', { config: { access: 'open' } }, async (request, reply) => {
    const rates = await findRateTable(deps.db, deps.now())
    if (!rates) return reply.page('requests/closed', {})
    const table = openTable(rates.body)
    const form = readBedsForm(request.query, table)
    return reply.page('requests/form', viewBedsForm(form, table, languageOf(request), false))
  })

  app.get('/ballpark', { config: { access: 'open' } }, async (_request, reply) => reply.redirect('/', 303))

  app.post('/ballpark', { config: { access: 'open', crossSite: true } }, async (request, reply) => {
    const table = await requireOpenRates(deps)
    if (isJson(request)) return answerJson(request, reply, request.body, table)
    const form = readBedsForm(request.body, table)
    if (wantsJson(request)) return answerJson(request, reply, toldOf(form), table)
    if (request.headers['x-part'] === 'live') {
      return reply.page('requests/form', viewBedsForm(form, table, languageOf(request), false))
    }
    return answerForm(request, reply, form, table)
  })

  app.get('/finishes', { config: { access: 'open', json: true } }, async request => {
    const table = await requireOpenRates(deps)
    const language = languageOf(request)
    const unit = unitSystem(table.units).depth
    return table.finishes.map(({ slug, name, depth }) => ({
      slug,
      name: name[language],
      depth: { ...depth, unit },
    }))
  })

  contactRoutes(app, deps)
  ownRoutes(app, deps)
}

async function requireOpenRates(deps: Deps): Promise<RateTable> {
  const rates = await findRateTable(deps.db, deps.now())
  if (!rates) throw new Refusal(503, 'error.not-open')
  return openTable(rates.body)
}

function isJson(request: FastifyRequest): boolean {
  return (request.headers['content-type'] ?? '').toLowerCase().startsWith('application/json')
}

function answerJson(request: FastifyRequest, reply: FastifyReply, body: unknown, table: RateTable) {
  const language = languageOf(request)
  const reading = readTold(body, table)
  if (!reading.ok) {
    const errors = reading.faults.map(({ field, key, params }: Fault) => ({
      field,
      message: t(language, key, params),
    }))
    return reply.code(422).send({ errors })
  }
  return ballparkAnswer(workOutBallpark(reading.job, table), (key, params) => t(language, key, params))
}

function answerForm(request: FastifyRequest, reply: FastifyReply, form: BedsForm, table: RateTable) {
  const action = actionOf(request)
  if (action === 'add') return show(request, reply, withBedAdded(form, table), table, true)
  const takenOut = /^remove\.(\d{1,2})$/.exec(action)
  if (takenOut) return show(request, reply, withBedTakenOut(form, Number(takenOut[1]), table), table, true)
  const reading = readTold(toldOf(form), table)
  if (!reading.ok)
    return reply.page('requests/form', viewBedsForm(form, table, languageOf(request), true), 422)
  if (action === 'go-on') return goOn(request, reply, form, reading, table)
  return show(request, reply, form, table, false)
}

function actionOf(request: FastifyRequest): string {
  const fields = (request.body ?? {}) as Record<string, unknown>
  return String([fields.do].flat()[0] ?? 'range')
}

function show(
  request: FastifyRequest,
  reply: FastifyReply,
  form: BedsForm,
  table: RateTable,
  atLastBed: boolean,
) {
  const query = queryOf(form)
  const place = atLastBed ? `bed-${form.beds.length}` : 'range'
  if (query.length <= LONGEST_QUERY) return reply.redirect(`/?${query}#${place}`, 303)
  return reply.page('requests/form', viewBedsForm(form, table, languageOf(request), false))
}

function goOn(
  request: FastifyRequest,
  reply: FastifyReply,
  form: BedsForm,
  reading: ToldReading & { ok: true },
  table: RateTable,
) {
  const key = randomUUID()
  const query = queryOf(form)
  if (query.length <= LONGEST_QUERY) return reply.redirect(`/request?${query}&key=${key}`, 303)
  const contact = { ...typedContact({}), postcode: form.postcode }
  return reply.page(
    'requests/contact',
    viewContact(form, reading.job, contact, key, table, languageOf(request)),
  )
}
