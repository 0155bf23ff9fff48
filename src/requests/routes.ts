import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { workOutBallpark } from '../estimate/ballpark/ballpark.ts'
import { ballparkAnswer } from '../estimate/ballpark/present.ts'
import { readTold, type ToldReading } from '../estimate/reading/read-beds.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { wantsJson } from '../http/errors.ts'
import { isForEveryone, KeptPage } from '../http/kept-page.ts'
import { languageOf } from '../http/language.ts'
import { t } from '../language/catalogue.ts'
import { requireStanding } from '../rates/standing.ts'
import { carriedContact, typedContact } from './contact-form.ts'
import { contactRoutes, keyOf } from './contact-routes.ts'
import { type ContactPage, viewContact } from './contact-view.ts'
import { type BedsForm, queryOf, readBedsForm, toldOf, withBedAdded, withBedTakenOut } from './form.ts'
import { type BedsPage, viewBedsForm } from './form-view.ts'
import { type OpenTable, openTable } from './open-table.ts'
import { bedFaultInWords } from './sold-out.ts'

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
  const emptyForm = new KeptPage()
  app.get('/', { config: { access: 'open' } }, async (request, reply) => {
    const standing = await deps.standing.read()
    const { rates } = standing
    if (!rates) return reply.page('requests/closed', {})
    const page = () => {
      const table = openTable(rates.body)
      return viewBedsForm(readBedsForm(request.query, table), table, languageOf(request), false)
    }
    if (!isForEveryone(request)) return reply.page('requests/form', page())
    return emptyForm.send(request, reply, standing, () => reply.markup('requests/form', page()))
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
}

async function requireOpenRates(deps: Deps): Promise<OpenTable> {
  const { rates } = await requireStanding(deps)
  return openTable(rates.body)
}

function isJson(request: FastifyRequest): boolean {
  return (request.headers['content-type'] ?? '').toLowerCase().startsWith('application/json')
}

function answerJson(request: FastifyRequest, reply: FastifyReply, body: unknown, table: OpenTable) {
  const language = languageOf(request)
  const reading = readTold(body, table)
  if (!reading.ok) {
    const errors = reading.faults.map(fault => ({
      field: fault.field,
      message: bedFaultInWords(fault, table, language),
    }))
    return reply.code(422).send({ errors })
  }
  return ballparkAnswer(workOutBallpark(reading.job, table.whole), (key, params) => t(language, key, params))
}

function answerForm(request: FastifyRequest, reply: FastifyReply, form: BedsForm, table: OpenTable) {
  const action = actionOf(request)
  if (action === 'add') return show(request, reply, withBedAdded(form, table), table, true)
  const takenOut = /^remove\.(\d{1,2})$/.exec(action)
  if (takenOut) return show(request, reply, withBedTakenOut(form, Number(takenOut[1]), table), table, true)
  const reading = readTold(toldOf(form), table)
  if (!reading.ok) return showBeds(request, reply, form, table, true)
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
  table: OpenTable,
  atLastBed: boolean,
) {
  const query = queryOf(form)
  const place = atLastBed ? `bed-${form.beds.length}` : 'range'
  const isShort = query.length <= LONGEST_QUERY && carriedBy(request).length === 0
  if (isShort) return reply.redirect(`/?${query}#${place}`, 303)
  return showBeds(request, reply, form, table, false)
}

function showBeds(
  request: FastifyRequest,
  reply: FastifyReply,
  form: BedsForm,
  table: OpenTable,
  showFaults: boolean,
) {
  const page = viewBedsForm(form, table, languageOf(request), showFaults)
  return reply.page('requests/form', { ...page, carried: carriedBy(request) }, showFaults ? 422 : 200)
}

// Who and where is typed before the beds where what was sent in could not be taken; it must not stand in an address.
function carriedBy(request: FastifyRequest): [name: string, value: string][] {
  return carriedContact((request.body ?? {}) as Record<string, unknown>)
}

function goOn(
  request: FastifyRequest,
  reply: FastifyReply,
  form: BedsForm,
  reading: ToldReading & { ok: true },
  table: OpenTable,
) {
  const carried = Object.fromEntries(carriedBy(request))
  const key = keyOf(carried.submissionKey)
  const query = queryOf(form)
  const isShort = query.length <= LONGEST_QUERY && Object.keys(carried).length === 0
  if (isShort) return reply.redirect(`/request?${query}&key=${key}`, 303)
  const contact = { ...typedContact(carried), postcode: form.postcode }
  return reply.page(
    'requests/contact',
    viewContact(form, reading.job, contact, key, table, languageOf(request)),
  )
}
