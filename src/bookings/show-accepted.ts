import type { FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { type AcceptedText, findAccepted } from './accepted-text.ts'

declare module '../http/render.ts' {
  interface Views {
    'bookings/accepted': { accepted: AcceptedView[]; address: string; back: string; isStaff: boolean }
  }
}

export interface AcceptedView extends AcceptedText {
  when: string
}

/**
 * Shows all that was accepted of a request, as it was shown then; with `?revision=` one of it by itself, byte for byte.
 * @throws {NotFound} when there is none
 */
export async function showAccepted(
  deps: Deps,
  request: FastifyRequest,
  reply: FastifyReply,
  shown: { quoteRequestId: number; address: string; back: string; isStaff: boolean; language: Language },
): Promise<FastifyReply> {
  const { quoteRequestId, language, ...page } = shown
  const found = await findAccepted(deps.db, quoteRequestId)
  const { revision } = request.query as { revision?: unknown }
  if (revision !== undefined) {
    const one = found.find(accepted => String(accepted.revision) === revision)
    if (!one) throw new NotFound()
    return reply.type('text/plain; charset=utf-8').send(one.text)
  }
  if (found.length === 0) throw new NotFound()
  const { time_zone } = await requireBusiness(deps.db)
  const accepted = found.map(one => ({ ...one, when: momentInWords(one.accepted_at, time_zone, language) }))
  return reply.page('bookings/accepted', { ...page, accepted })
}
