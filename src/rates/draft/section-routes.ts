import type { FastifyInstance, FastifyReply } from 'fastify'
import { requireBusiness } from '../../account/queries.ts'
import type { Deps } from '../../deps.ts'
import { Conflict, NotFound } from '../../http/errors.ts'
import { say } from '../../http/flash.ts'
import { requireAccount } from '../../http/session.ts'
import { momentInWords } from '../../lib/dates.ts'
import { typedFields } from '../form.ts'
import { type Difference, differenceOf } from '../sheets/difference.ts'
import { saveDraft } from './draft.ts'
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
    const section = requireSection(draft, request.params.section)
    const { seen = '', ...typed } = typedFields(request.body)
    if (seen !== draft.seen) return showStale(deps, reply, draft, section, typed)
    const reading = readSection(section, draft.body, typed)
    if (!reading.ok) return showSection(reply, draft, section, { typed, errors: reading.errors, status: 422 })
    const isSame = differenceOf(draft.body, reading.table).length === 0
    if (!isSame && !(await savedAsSeen(deps, requireAccount(request).id, seen, reading.table))) {
      const now = await requireDraftState(deps.db)
      return showStale(deps, reply, now, requireSection(now, section.key), typed)
    }
    say(
      reply,
      isSame ? 'Nothing was different, so nothing was saved.' : `Saved in the draft: ${section.title}.`,
    )
    return reply.redirect('/rates/draft', 303)
  })
}

async function savedAsSeen(
  deps: Deps,
  accountId: number,
  seen: string,
  table: DraftState['body'],
): Promise<boolean> {
  try {
    await saveDraft(deps, accountId, seen, table)
    return true
  } catch (error) {
    if (error instanceof Conflict) return false
    throw error
  }
}

function requireSection(draft: DraftState, key: string): Section {
  const section = findSection(draft.body, key)
  if (!section) throw new NotFound()
  return section
}

async function showStale(
  deps: Deps,
  reply: FastifyReply,
  draft: DraftState,
  section: Section,
  typed: Record<string, string>,
) {
  const { time_zone } = await requireBusiness(deps.db)
  const reading = readSection(section, draft.body, typed)
  const since = draft.saved
    ? `${draft.saved.by} saved this draft on ${momentInWords(draft.saved.at, time_zone, 'en')}, after you opened this form.`
    : 'The rates changed after you opened this form: a draft was put in force or dropped, or a version was made.'
  return showSection(reply, draft, section, {
    typed,
    errors: {
      ...(reading.ok ? {} : reading.errors),
      '': `${since} Nothing of yours was saved; it is still here. Save it again if it is right.`,
    },
    differences: reading.ok ? differenceOf(draft.body, reading.table) : [],
    status: 409,
  })
}

function showSection(
  reply: FastifyReply,
  draft: DraftState,
  section: Section,
  shown: {
    typed?: Record<string, string>
    errors?: Record<string, string>
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
