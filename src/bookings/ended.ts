import type { FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { findEndedLink, findLinkPath, type LinkPurpose } from '../requests/links.ts'

type WhyEnded = 'booking.ended' | 'booking.ended-past' | 'booking.ended-replaced'

declare module '../http/render.ts' {
  interface Views {
    'bookings/ended': { why: WhyEnded }
  }
}

/** Why a link that was once given out opens nothing any more; undefined for one that stands, and for one that never was. */
export async function findWhyEnded(
  deps: Deps,
  purpose: LinkPurpose,
  token: string,
): Promise<WhyEnded | undefined> {
  const ended = await findEndedLink(deps.db, purpose, token, deps.now())
  if (!ended) return undefined
  if (ended.revoked_at === null) return 'booking.ended-past'
  const stands = await findLinkPath(deps.db, deps.secretKey, purpose, ended.quote_request_id)
  return stands ? 'booking.ended-replaced' : 'booking.ended'
}

/** The page of such a link: why, whom to call, and how to ask again, but nothing of the request. */
export function showEnded(reply: FastifyReply, why: WhyEnded): Promise<FastifyReply> {
  return reply.page('bookings/ended', { why }, 410)
}
