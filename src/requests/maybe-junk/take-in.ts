import type { FastifyRequest } from 'fastify'
import type { Deps } from '../../deps.ts'
import { secondsHad } from '../../junk/form-time.ts'
import { findSent, type Sending, sendQuoteRequest, type TakenIn, type Worked } from '../quote-request.ts'
import { contentHash } from '../sent-before.ts'
import { holdAsMaybeJunk } from './hold.ts'
import { SentMeanwhile } from './queries.ts'

/**
 * Takes in what a stranger sends: as a request, or held as maybe junk where much speaks for that. Either way the answer is the same, and
 * nothing is refused. `worked` is its ballpark; null without beds.
 */
export async function takeInWeighed(
  deps: Deps,
  request: FastifyRequest,
  form: { typed: Record<string, unknown>; sending: Sending; worked: Worked | null },
): Promise<TakenIn> {
  const { sending, worked, typed } = form
  const submitted = { key: sending.submissionKey, contentHash: contentHash(sending.told, sending) }
  const { phone, email, submissionKey } = sending
  const weighed = await deps.load.junk.weigh({
    submission: `${submitted.key} ${submitted.contentHash}`,
    address: request.ip,
    words: sending,
    phone,
    email,
    hiddenBox: typeof typed.keepEmpty === 'string' ? typed.keepEmpty : '',
    seconds: secondsHad(deps.secretKey, submissionKey, typed.begun, deps.now()),
  })
  try {
    if (weighed.held) return await holdAsMaybeJunk(deps, sending, worked, weighed)
    return await sendQuoteRequest(deps, sending, worked ?? undefined)
  } catch (error) {
    const before = error instanceof SentMeanwhile && (await findSent(deps, submitted))
    if (before) return before
    throw error
  }
}
