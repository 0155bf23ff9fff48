import type { FastifyInstance } from 'fastify'
import { requireBusiness } from '../../business/queries.ts'
import type { Deps } from '../../deps.ts'
import { NotFound } from '../../http/errors.ts'
import { say } from '../../http/flash.ts'
import { requireAccount } from '../../http/signed-in.ts'
import { momentInWords } from '../../language/dates-in-words.ts'
import { type Difference, differenceOf } from '../csv/difference.ts'
import { beginFrom } from '../draft/draft.ts'
import { findDraft } from '../draft/queries.ts'
import { findStandingBefore, findVersion } from '../queries.ts'
import { callOffVersion } from './call-off.ts'
import { findVersionRow, findVersions, type VersionRow } from './queries.ts'
import { type Standing, standingOf } from './words.ts'

interface VersionInWords extends Omit<Standing, 'waits'> {
  version: number
  made: string
}

declare module '../../http/render.ts' {
  interface Views {
    'rates/versions/list': { versions: VersionInWords[]; olderPath: string | null }
    'rates/versions/show': VersionInWords & {
      draftOpen: boolean
      /** The version before it that wasn't called off, and what is different from that one; null of the first. */
      before: number | null
      differences: Difference[]
    }
  }
}

interface OfVersion {
  Params: { version: string }
}

const owner = { config: { access: 'owner' } } as const
const MOST_SHOWN = 50

/** Every version of the rates that there ever was; none is changed or lost. */
export function versionRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<{ Querystring: { before?: unknown } }>('/rates/versions', owner, async (request, reply) => {
    const before = request.query.before === undefined ? undefined : numberOf(request.query.before)
    const rows = await findVersions(deps.db, MOST_SHOWN + 1, before)
    const shown = rows.slice(0, MOST_SHOWN)
    const { time_zone } = await requireBusiness(deps.db)
    return reply.page('rates/versions/list', {
      versions: shown.map(row => inWords(row, deps.now(), time_zone)),
      olderPath: rows.length > shown.length ? `/rates/versions?before=${shown.at(-1)!.version}` : null,
    })
  })

  app.get<OfVersion>('/rates/versions/:version', owner, async (request, reply) => {
    const number = numberOf(request.params.version)
    const [row, version] = [await findVersionRow(deps.db, number), await findVersion(deps.db, number)]
    if (!row || !version) throw new NotFound()
    const before = await findStandingBefore(deps.db, number)
    const { time_zone } = await requireBusiness(deps.db)
    return reply.page('rates/versions/show', {
      ...inWords(row, deps.now(), time_zone),
      draftOpen: (await findDraft(deps.db)) !== undefined,
      before: before ? before.version : null,
      differences: before ? differenceOf(before.body, version.body) : [],
    })
  })

  app.post<OfVersion>('/rates/versions/:version/call-off', owner, async (request, reply) => {
    const number = numberOf(request.params.version)
    const calledOff = await callOffVersion(deps, requireAccount(request).id, number)
    say(reply, calledOff ? `Version ${number} is canceled.` : `Version ${number} was already canceled.`)
    return reply.redirect(`/rates/versions/${number}`, 303)
  })

  app.post<OfVersion>('/rates/versions/:version/draft', owner, async (request, reply) => {
    const number = numberOf(request.params.version)
    await beginFrom(deps, requireAccount(request).id, number)
    say(reply, `Here’s a draft with the figures of version ${number}.`)
    return reply.redirect('/rates/draft', 303)
  })
}

/** @throws {NotFound} when it isn't a whole number */
function numberOf(typed: unknown): number {
  if (!/^[1-9]\d{0,8}$/.test(String(typed))) throw new NotFound()
  return Number(typed)
}

function inWords(row: VersionRow, now: Temporal.Instant, timeZone: string): VersionInWords {
  const made = `made ${momentInWords(row.made_at, timeZone, 'en')} by ${row.made_by_name}`
  const { words, mayCallOff } = standingOf(row, now, timeZone)
  return { version: row.version, made, words, mayCallOff }
}
