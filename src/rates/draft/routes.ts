import type { FastifyInstance, FastifyReply } from 'fastify'
import { requireBusiness } from '../../business/queries.ts'
import type { Deps } from '../../deps.ts'
import { Conflict, NotFound } from '../../http/errors.ts'
import { say } from '../../http/flash.ts'
import { FormFields } from '../../http/form-fields.ts'
import type { Errors, Typed } from '../../http/posted.ts'
import { requireAccount } from '../../http/signed-in.ts'
import { t } from '../../language/catalogue.ts'
import { dayInWords, momentInWords } from '../../language/dates-in-words.ts'
import { dayOf } from '../../lib/dates.ts'
import { type Difference, differenceOf } from '../csv/difference.ts'
import { findNewestVersion, findRateTable, requireRateTable } from '../queries.ts'
import { dropDraft } from './draft.ts'
import { findPastRequests } from './past-requests.ts'
import { comparePast } from './preview.ts'
import { type PreviewInWords, previewInWords } from './preview-words.ts'
import { putInForce } from './put-in-force.ts'
import { readPutInForce } from './put-in-force-form.ts'
import { sectionRoutes } from './section-routes.ts'
import { type SectionGroup, sectionGroups } from './sections-of.ts'
import { type DraftState, requireDraftState } from './state.ts'

declare module '../../http/render.ts' {
  interface Views {
    'rates/draft/show': {
      basedOn: number
      /** When and by whom it was saved last; null while no draft is open. */
      saved: { at: string; by: string } | null
      seen: string
      groups: SectionGroup[]
      differences: Difference[]
    }
    'rates/draft/preview': {
      seen: string
      newest: number
      inForce: number
      basedOn: number
      today: string
      preview: PreviewInWords
      differences: Difference[]
      values: Record<string, string>
    }
  }
}

const owner = { config: { access: 'owner' } } as const
const MOST_PAST = 50

/** The next version of the rates while it is being made: opened, looked through, previewed, put in force or dropped. */
export function draftRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/rates/draft', owner, async (_request, reply) =>
    showDraft(deps, reply, await requireDraftState(deps.db)),
  )

  app.get('/rates/draft/preview', owner, async (_request, reply) => {
    const draft = await requireDraftState(deps.db)
    return draft.saved ? showPreview(deps, reply, draft) : reply.redirect('/rates/draft', 303)
  })

  app.post('/rates/draft/put-in-force', owner, async (request, reply) => {
    const fields = new FormFields(request.body)
    const { time_zone } = await requireBusiness(deps.db)
    const today = dayOf(deps.now(), time_zone)
    const reading = readPutInForce(fields, today)
    try {
      if (!reading.ok) return await showAgain(deps, reply, { ...reading, status: 422 })
      const version = await putInForce(deps, requireAccount(request).id, reading.values)
      const { day } = reading.values
      const from = day === today ? 'is in force' : `takes effect on ${dayInWords(day, 'en', true)}`
      say(reply, `Version ${version} ${from}.`)
      return reply.redirect('/rates', 303)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const errors = { '': t('en', error.key) }
      return showAgain(deps, reply, { typed: fields.typed, errors, status: 409 })
    }
  })

  app.post('/rates/draft/drop', owner, async (request, reply) => {
    await dropDraft(deps, new FormFields(request.body).text('seen'))
    say(reply, 'The draft is dropped. The rates stay as they are.')
    return reply.redirect('/rates', 303)
  })

  sectionRoutes(app, deps)
}

async function showDraft(deps: Deps, reply: FastifyReply, draft: DraftState) {
  const { time_zone } = await requireBusiness(deps.db)
  const based = await requireRateTable(deps.db, draft.basedOn.id)
  const { saved } = draft
  return reply.page('rates/draft/show', {
    basedOn: based.version,
    saved: saved && { at: momentInWords(saved.at, time_zone, 'en'), by: saved.by },
    seen: draft.seen,
    groups: sectionGroups(draft.body),
    differences: differenceOf(based.body, draft.body),
  })
}

interface Again {
  typed: Typed
  errors: Errors
  status: number
}

/** The preview as it is now, with what was typed; without a draft there is nothing to show again. */
async function showAgain(deps: Deps, reply: FastifyReply, again: Again) {
  const draft = await requireDraftState(deps.db)
  if (!draft.saved) throw new Conflict('rates.draft-changed')
  return showPreview(deps, reply, draft, again)
}

async function showPreview(deps: Deps, reply: FastifyReply, draft: DraftState, again?: Again) {
  const { time_zone } = await requireBusiness(deps.db)
  const inForce = await findRateTable(deps.db, deps.now())
  const newest = await findNewestVersion(deps.db)
  if (!inForce || !newest) throw new NotFound()
  const today = dayOf(deps.now(), time_zone)
  const past = await findPastRequests(deps.db, MOST_PAST)
  const data = {
    seen: draft.seen,
    newest: newest.version,
    inForce: inForce.version,
    basedOn: draft.basedOn.version,
    today,
    preview: previewInWords(comparePast(past, inForce.body, draft.body), draft.body.currency),
    differences: differenceOf(newest.body, draft.body),
    values: { day: again?.typed.day ?? today },
    errors: again?.errors ?? {},
  }
  return reply.page('rates/draft/preview', data, again?.status ?? 200)
}
