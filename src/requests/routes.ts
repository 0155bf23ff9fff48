import type { FastifyInstance, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { readTold } from '../estimate/reading/read-beds.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { wantsJson } from '../http/errors.ts'
import { FormFields } from '../http/form-fields.ts'
import { isForEveryone, KeptPage } from '../http/kept-page.ts'
import { inSameLanguage, languageOf } from '../http/language.ts'
import { translator } from '../language/catalogue.ts'
import { requireStanding } from '../rates/standing.ts'
import type { AskPage } from './ask.ts'
import { begunOf } from './begun.ts'
import { typedContact } from './contact-form.ts'
import { contactRoutes, keyOf } from './contact-routes.ts'
import type { ContactPage, ContactPart } from './contact-view.ts'
import { carriedBy, drawContact, drawForm, type Post } from './draw.ts'
import {
  type BedsForm,
  queryOf,
  readBedsForm,
  toldOf,
  withBedAdded,
  withBedCopied,
  withBedTakenOut,
  withSpelling,
} from './form.ts'
import type { BedsPage, LivePart } from './form-view.ts'
import { type OpenTable, openTable } from './open-table.ts'
import { readPhotos } from './photos/form.ts'
import { heldPhotoRoutes } from './photos/routes.ts'
import { type Drawn, unitsOfForm, unitsOfTold } from './units.ts'
import { MOST_SENT, unitsPosted, withinBudget, workOut } from './within-budget.ts'
import { workings } from './workings.ts'

declare module '../http/render.ts' {
  interface Views {
    'requests/form': BedsPage
    'requests/live': LivePart
    'requests/closed': object
    'requests/contact': ContactPage
    'requests/ask': AskPage
    'requests/contact-part': ContactPart
  }
}

/** What of a page follows the typing, by the header that asks for it. */
const PARTS = new Map<string, { working: 'live' | 'contactPart'; drawn: Drawn }>([
  ['live', { working: 'live', drawn: 'live' }],
  ['contact', { working: 'contactPart', drawn: 'contact' }],
])

/** A longer address than this is not asked of browsers and proxies; the page is then answered at once. */
const LONGEST_QUERY = 6000

/** The homeowner's form and its range, for people and for other programs. */
export function requestRoutes(app: FastifyInstance, deps: Deps): void {
  const emptyForm = new KeptPage()
  app.get('/', { config: { access: 'open' } }, async (request, reply) => {
    const standing = await deps.standing.read()
    const { rates } = standing
    if (!rates) return reply.page('requests/closed', {})
    const table = openTable(rates.body)
    if (isForEveryone(request)) {
      return emptyForm.send(request, reply, standing, async () => {
        const around = await reply.around()
        return workings.form({ form: readBedsForm({}, table), showFaults: false, carried: [], around }, table)
      })
    }
    const units = unitsOfForm(request.query, 'form', table)
    return withinBudget(deps, request, reply, units, () => {
      const form = readBedsForm(request.query, table)
      return drawForm({ deps, request, reply, table, units }, { form, showFaults: false })
    })
  })

  app.get('/ballpark', { config: { access: 'open' } }, async (_request, reply) => reply.redirect('/', 303))

  const posted = { bodyLimit: MOST_SENT, config: { access: 'open', crossSite: true } } as const
  app.post('/ballpark', posted, async (request, reply) => {
    const table = await requireOpenRates(deps)
    const part = PARTS.get(String(request.headers['x-part']))
    const told = isJson(request)
      ? unitsOfTold(request.body, table)
      : unitsOfForm(request.body, part?.drawn ?? 'form', table)
    const units = told + unitsPosted(request)
    return withinBudget(deps, request, reply, units, async () => {
      const post = { deps, request, reply, table, units }
      if (isJson(request)) return answerJson(post, request.body)
      const form = readBedsForm(request.body, table)
      if (wantsJson(request)) return answerJson(post, toldOf(form))
      if (!part) return answerForm(post, form)
      const asked = { form, around: await reply.around() }
      return reply.drawn(await workOut(deps, units, part.working, asked, table))
    })
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
  heldPhotoRoutes(app, deps)
}

async function requireOpenRates(deps: Deps): Promise<OpenTable> {
  const { rates } = await requireStanding(deps)
  return openTable(rates.body)
}

function isJson(request: FastifyRequest): boolean {
  return (request.headers['content-type'] ?? '').toLowerCase().startsWith('application/json')
}

async function answerJson({ deps, request, reply, table, units }: Post, body: unknown) {
  const asked = { body, language: languageOf(request) }
  const { status, answer } = await workOut(deps, units, 'ballpark', asked, table)
  return reply.code(status).send(answer)
}

async function answerForm(post: Post, form: BedsForm) {
  const { request, table } = post
  const action = actionOf(request)
  if (action === 'add') return showBed(post, withBedAdded(form, table))
  const copied = /^copy\.(\d{1,2})$/.exec(action)
  if (copied) return showBed(post, withBedCopied(form, Number(copied[1])))
  const takenOut = /^remove\.(\d{1,2})$/.exec(action)
  if (takenOut) return showBed(post, withBedTakenOut(form, Number(takenOut[1]), table))
  const [, field, index, spelling] = /^read\.(beds\.(\d{1,2})\.[\w.]+)=(.*)$/.exec(action) ?? []
  if (field) return showBed(post, withSpelling(form, field, spelling!), Number(index) + 1)
  if (!readTold(toldOf(form), table).ok) return drawForm(post, { form, showFaults: true })
  if (action === 'go-on') return goOn(post, form)
  return show(post, form, 'range')
}

function actionOf(request: FastifyRequest): string {
  const fields = (request.body ?? {}) as Record<string, unknown>
  return String([fields.do].flat()[0] ?? 'range')
}

function showBed(post: Post, form: BedsForm, bed = form.beds.length) {
  return show(post, form, `bed-${bed}`)
}

function show(post: Post, form: BedsForm, place: string) {
  const query = queryOf(form)
  const isShort = query.length <= LONGEST_QUERY && carriedBy(post.request).length === 0
  if (isShort) return post.reply.redirect(inSameLanguage(post.request, `/?${query}#${place}`), 303)
  return drawForm(post, { form, showFaults: false })
}

async function goOn(post: Post, form: BedsForm) {
  const carried = Object.fromEntries(carriedBy(post.request))
  const submissionKey = keyOf(carried.submissionKey)
  const query = queryOf(form)
  const isShort = query.length <= LONGEST_QUERY && Object.keys(carried).length === 0
  if (isShort) return post.reply.redirect(inSameLanguage(post.request, `/request?${query}`), 303)
  const contact = { ...typedContact(carried), postcode: form.postcode }
  const fields = new FormFields(carried)
  const { business } = await requireStanding(post.deps)
  const say = translator(languageOf(post.request), business.country)
  const asking = { most: business.photos_each, sender: 'stranger', say } as const
  const photos = await readPhotos(post.deps, post.request, fields, asking)
  const begun = begunOf(post.deps, submissionKey, carried.begun)
  return drawContact(post, { form, contact, submissionKey, begun, photos, errors: fields.errors })
}
