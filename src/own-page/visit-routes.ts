import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { FEW_A_MINUTE, MANY_A_MINUTE } from '../http/rate-limits.ts'
import { type Key, t, translator } from '../language/catalogue.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { requireStanding } from '../rates/standing.ts'
import { isUnsuited } from '../requests/unsuited.ts'
import { findOffers } from '../visits/offered-times.ts'
import { mayMoveVisit, pickTime, sayTimeUnsuited, timesToPick } from '../visits/pick-time.ts'
import { findVisitAhead } from '../visits/queries.ts'
import { callOffVisit } from '../visits/visit.ts'
import { CALL, OFF, type PickedTime, readPickedTime } from './visit-form.ts'

interface VisitPage {
  /** The visit that is set, 0 for none, as the form carries it, and in words. */
  seen: number
  set: string | null
  mayMove: boolean
  times: { value: string; label: string }[]
  unsuited: boolean
  ownPath: string
  values: Typed
}

declare module '../http/render.ts' {
  interface Views {
    'own-page/visit': VisitPage
  }
}

type ByToken = FastifyRequest<{ Params: { token: string } }>

/** Where a homeowner picks a time for the visit, moves it, cancels it, or says that it doesn't suit. */
export function visitOfOwnRoutes(
  app: FastifyInstance,
  deps: Deps,
  requireByToken: (request: ByToken) => Promise<number>,
): void {
  app.get('/r/:token/visit', { config: { access: 'link', ...MANY_A_MINUTE } }, showVisit)
  app.post('/r/:token/visit', { config: { access: 'link', ...FEW_A_MINUTE } }, changeVisit)

  async function showVisit(request: ByToken, reply: FastifyReply) {
    const page = await viewVisit(request)
    return page ? reply.page('own-page/visit', page) : reply.redirect(ownPath(request), 303)
  }

  async function changeVisit(request: ByToken, reply: FastifyReply) {
    const language = languageOf(request)
    const id = await requireByToken(request)
    const fields = new FormFields(request.body)
    const reading = readPickedTime(fields, translator(language))
    if (!reading.ok) return refuse(request, reply, 422, reading.errors, reading.typed)
    try {
      await act(id, reading.values)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      return refuse(request, reply, 409, { pick: t(language, error.key, error.params) }, fields.typed)
    }
    say(reply, t(language, SAID[reading.values.pick] ?? 'visits.said'))
    return reply.redirect(ownPath(request), 303)
  }

  async function act(id: number, { seen, pick, words, startsAt }: PickedTime): Promise<void> {
    if (pick === CALL) return sayTimeUnsuited(deps, id, { seen, words })
    if (pick === OFF) return callOffVisit(deps, 'homeowner', id, seen)
    if (startsAt) await pickTime(deps, id, { seen, startsAt })
  }

  async function refuse(request: ByToken, reply: FastifyReply, status: number, errors: Errors, typed: Typed) {
    const page = await viewVisit(request, typed)
    if (page) return reply.page('own-page/visit', { ...page, errors }, status)
    say(reply, t(languageOf(request), 'visits.none'))
    return reply.redirect(ownPath(request), 303)
  }

  async function viewVisit(request: ByToken, values: Typed = {}): Promise<VisitPage | undefined> {
    const id = await requireByToken(request)
    const language = languageOf(request)
    const { business } = await requireStanding(deps)
    const now = deps.now()
    const found = await deps.db
      .selectFrom('quote_request')
      .select(['id', 'stage', 'preferred_times'])
      .where('id', '=', id)
      .executeTakeFirstOrThrow()
    const ahead = found.stage === 'visit set' ? await findVisitAhead(deps.db, id) : undefined
    const times = await timesToPick(deps.db, business, found, now)
    // Times that were sent and are all taken by now leave a call.
    const isAsked = found.stage === 'new' && (await findOffers(deps.db, id, now)).length > 0
    if (!ahead && !isAsked) return undefined
    const inWords = (at: string) => momentInWords(at, business.time_zone, language)
    const mayMove = !ahead || mayMoveVisit(business, ahead.starts_at, now)
    const none = t(language, mayMove ? 'visits.none-of-these' : 'visits.only-call')
    return {
      seen: ahead?.id ?? 0,
      set: ahead ? inWords(ahead.starts_at) : null,
      mayMove,
      times: [
        ...times.map(time => ({ value: time.toString(), label: inWords(time.toString()) })),
        { value: CALL, label: none },
        ...(ahead ? [{ value: OFF, label: t(language, 'visits.off') }] : []),
      ],
      unsuited: await isUnsuited(deps.db, id),
      ownPath: ownPath(request),
      values,
    }
  }
}

const SAID: Record<string, Key> = { [CALL]: 'moves.said-unsuited', [OFF]: 'visits.said-off' }

function ownPath(request: ByToken): string {
  return `/r/${request.params.token}`
}
