import type { FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { findEndedLink, findLinkPath, type LinkPurpose } from '../requests/links.ts'
import type { LinkRequest } from './show.ts'

declare module '../http/render.ts' {
  interface Views {
    'bookings/ended': { why: 'booking.ended' | 'booking.ended-past' | 'booking.ended-replaced' }
  }
}

/**
 * The page of a link that was once given out and opens nothing any more: why, whom to call, and how to ask again, but
 * nothing of the request. Undefined for a link that stands, and for one that never was.
 */
export async function showEnded(
  deps: Deps,
  request: LinkRequest,
  reply: FastifyReply,
  purpose: LinkPurpose,
): Promise<FastifyReply | undefined> {
  const ended = await findEndedLink(deps.db, purpose, request.params.token, deps.now())
  if (!ended) return undefined
  const stands = await findLinkPath(deps.db, deps.secretKey, purpose, ended.quote_request_id)
  const why =
    ended.revoked_at === null ? 'booking.ended-past' : stands ? 'booking.ended-replaced' : 'booking.ended'
  return reply.page('bookings/ended', { why }, 410)
}
