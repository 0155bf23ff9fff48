import type { FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { languageOf } from '../http/language.ts'
import { requireStanding } from '../rates/standing.ts'
import { addNote, changePhone } from '../requests/changed-by-homeowner.ts'
import { findByToken } from '../requests/links.ts'
import { changeMaybeJunk } from '../requests/maybe-junk/change.ts'
import { findMaybeJunkByToken, type MaybeJunkRow } from '../requests/maybe-junk/queries.ts'
import { findPicture } from '../requests/photos/queries.ts'
import { viewMaybeJunk } from './maybe-junk.ts'
import { requireOwnRequest } from './queries.ts'
import { type OwnPage, type OwnRequest, viewOwnPage } from './view.ts'

export type ByToken = { Params: { token: string } }

/** What an own page shows and what its homeowner changes there, whether its request stands in the queue or is held as maybe junk. */
export interface Opened {
  email: string
  beds: number
  page(): Promise<OwnPage>
  changePhone(phone: string): Promise<void>
  addNote(note: string): Promise<void>
}

/**
 * Opens the own page of a token.
 * @throws {NotFound} when it opens none
 */
export async function openOwn(request: FastifyRequest<ByToken>, deps: Deps): Promise<Opened> {
  const { token } = request.params
  const id = await findByToken(deps.db, 'own page', token, deps.now())
  const held = id === undefined && (await findMaybeJunkByToken(deps.db, token))
  if (held) return openHeld(request, deps, held)
  const own = await requireOwn(request, deps)
  return {
    email: own.email,
    beds: own.told.beds.length,
    page: () => pageOf(request, deps, own),
    changePhone: phone => changePhone(deps, own.id, phone),
    addNote: note => addNote(deps, own.id, note),
  }
}

function openHeld(request: FastifyRequest<ByToken>, deps: Deps, held: MaybeJunkRow): Opened {
  const { sending } = held
  // Where somebody just moved it into the queue, what was typed belongs to the request there.
  const change = async (
    ofHeld: Parameters<typeof changeMaybeJunk>[2],
    ofRequest: (id: number) => Promise<void>,
  ) => {
    if (await changeMaybeJunk(deps.db, held.id, ofHeld)) return
    await ofRequest(await requireByToken(request, deps))
  }
  return {
    email: sending.email,
    beds: sending.told.beds.length,
    page: async () => {
      const { business } = await requireStanding(deps)
      return viewMaybeJunk(deps, business, held, pathOf(request), languageOf(request))
    },
    changePhone: phone => change({ phone }, id => changePhone(deps, id, phone)),
    addNote: note => change({ note }, id => addNote(deps, id, note)),
  }
}

/** A picture of the request's photos, in one of the sizes; undefined where it has no such photo. */
export async function findOwnPicture(
  request: FastifyRequest<ByToken>,
  deps: Deps,
  photoId: number,
  size: 'picture' | 'small',
): Promise<Buffer | undefined> {
  const { token } = request.params
  const id = await findByToken(deps.db, 'own page', token, deps.now())
  if (id !== undefined) return findPicture(deps.db, id, photoId, size)
  const held = await findMaybeJunkByToken(deps.db, token)
  return held && findPicture(deps.db, held.id, photoId, size, 'maybe_junk_id')
}

/** @throws {NotFound} when no request in the queue has such a link */
export async function requireByToken(request: FastifyRequest<ByToken>, deps: Deps): Promise<number> {
  const id = await findByToken(deps.db, 'own page', request.params.token, deps.now())
  if (id === undefined) throw new NotFound()
  return id
}

export async function requireOwn(request: FastifyRequest<ByToken>, deps: Deps): Promise<OwnRequest> {
  return requireOwnRequest(deps.db, await requireByToken(request, deps))
}

export async function pageOf(
  request: FastifyRequest<ByToken>,
  deps: Deps,
  own: OwnRequest,
): Promise<OwnPage> {
  const { business } = await requireStanding(deps)
  return viewOwnPage(deps, business, own, pathOf(request), languageOf(request))
}

export function pathOf(request: FastifyRequest<ByToken>): string {
  return `/r/${request.params.token}`
}
