import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../../deps.ts'
import { NotFound } from '../../http/errors.ts'
import { say } from '../../http/flash.ts'
import { FormFields } from '../../http/form-fields.ts'
import type { Errors, Typed } from '../../http/posted.ts'
import { requireAccount } from '../../http/signed-in.ts'
import { type Difference, differenceOf } from '../csv/difference.ts'
import { saveDraft } from './draft.ts'
import { showGone } from './gone.ts'
import { byNamesNow } from './older-names.ts'
import { overtakenInWords } from './overtaken.ts'
import { againstListsNow } from './overtaken-lists.ts'
import type { Section } from './section.ts'
import { readSection, sectionValues } from './section-form.ts'
import { type SectionView, viewSection } from './section-view.ts'
import { findSection } from './sections-of.ts'
import { type DraftState, requireDraftState } from './state.ts'

declare module '../../http/render.ts' {
  interface Views {
    'rates/draft/section': SectionView & {
      key: string
      title: string
      adds: string
      seen: string
      /** Where somebody saved meanwhile: what saving this form now would change. */
      differences: Difference[] | null
    }
  }
}

const owner = { access: 'owner' } as const

interface OfSection {
  Params: { section: string }
  Querystring: { add?: string }
}

/** One small section of the draft, saved by itself. */
export function sectionRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<OfSection>('/rates/draft/:section', { config: owner }, async (request, reply) => {
    const draft = await requireDraftState(deps.db)
    const section = requireSection(draft, request.params.section)
    return showSection(reply, draft, section, { wantedKind: request.query.add })
  })

  app.post<OfSection>('/rates/draft/:section', { config: owner }, async (request, reply) => {
    const draft = await requireDraftState(deps.db)
    const { seen = '', ...sent } = new FormFields(request.body).typed
    const typed = byNamesNow(sent)
    if (seen !== draft.seen) return showStale(deps, reply, draft, request.params.section, typed)
    const section = requireSection(draft, request.params.section)
    const reading = readSection(section, draft.body, typed)
    if (!reading.ok) return showSection(reply, draft, section, { ...reading, status: 422 })
    const isSame = differenceOf(draft.body, reading.values).length === 0
    if (!isSame && !(await saveDraft(deps, requireAccount(request).id, seen, reading.values))) {
      return showStale(deps, reply, await requireDraftState(deps.db), section.key, typed)
    }
    return saved(reply, isSame ? 'Nothing was different, so nothing was saved.' : savedInWords(section))
  })
}

function requireSection(draft: DraftState, key: string): Section {
  const section = findSection(draft.body, key)
  if (!section) throw new NotFound()
  return section
}

async function showStale(deps: Deps, reply: FastifyReply, draft: DraftState, key: string, sent: Typed) {
  const section = findSection(draft.body, key)
  if (!section) return showGone(reply, sent)
  // A second tap finds what the first one saved.
  const again = readSection(section, draft.body, sent)
  if (draft.saved && again.ok && differenceOf(draft.body, again.values).length === 0)
    return saved(reply, savedInWords(section))
  const typed = againstListsNow(section, draft.body, sent)
  const reading = readSection(section, draft.body, typed)
  return showSection(reply, draft, section, {
    typed,
    errors: {
      ...(reading.ok ? {} : reading.errors),
      '': await overtakenInWords(deps.db, draft),
    },
    differences: reading.ok ? differenceOf(draft.body, reading.values) : [],
    status: 409,
  })
}

function savedInWords({ title }: Section): string {
  return `Saved in the draft: ${title}.`
}

function saved(reply: FastifyReply, sentence: string) {
  say(reply, sentence)
  return reply.redirect('/rates/draft', 303)
}

function showSection(
  reply: FastifyReply,
  draft: DraftState,
  section: Section,
  shown: {
    typed?: Typed
    errors?: Errors
    differences?: Difference[]
    wantedKind?: string | undefined
    status?: number
  },
) {
  const { typed, errors = {}, differences = null, wantedKind, status = 200 } = shown
  const values = typed ?? sectionValues(section, draft.body)
  const view = viewSection(section, draft.body, values, { again: typed !== undefined, wantedKind })
  const { key, title, adds } = section
  const data = { ...view, key, title, adds, seen: draft.seen, differences }
  return reply.page('rates/draft/section', { ...data, errors }, status)
}
