import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { languageOf } from '../http/language.ts'
import type { Typed } from '../http/posted.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { makePaper } from '../paper/make-paper.ts'
import { sendFile } from '../papers/send-file.ts'
import { unitsOfPaper } from '../requests/units.ts'
import { chargeOwn } from '../requests/within-budget.ts'
import { findWhyEnded, showEnded } from './ended.ts'
import { type OpenedLink, openBookingLink } from './page.ts'
import { viewPricePaper } from './price-paper.ts'
import { type LinkRequest, withPicksOrNone } from './show.ts'

/** The price of a link as a PDF, with what was picked of it in the address. */
export function pricePaperRoutes(app: FastifyInstance, deps: Deps): void {
  const reads = { config: { access: 'link' as const, ...FEW_A_MINUTE } }
  for (const [path, purpose] of [
    ['/b/:token/price.pdf', 'booking'],
    ['/p/:token/price.pdf', 'reading'],
  ] as const)
    app.get(path, reads, async (request: LinkRequest, reply) => {
      const ended = await findWhyEnded(deps, purpose, request.params.token)
      if (ended) return showEnded(reply, ended)
      const opened = await openBookingLink(deps, request.params.token, purpose)
      chargeOwn(deps, request, reply, unitsOfPaper(opened.quote.job.beds.length))
      return sendPricePaper(deps, request, reply, opened, languageOf(request))
    })
}

/** Sends the price as a PDF, as it is with what was picked in the address. */
export async function sendPricePaper(
  deps: Deps,
  request: FastifyRequest,
  reply: FastifyReply,
  opened: OpenedLink,
  language: Language,
): Promise<FastifyReply> {
  const bytes = await makePricePaper(deps, opened, request.query as Typed, language)
  const name = t(language, 'paper.file', { number: opened.request.number })
  return sendFile(reply, { kind: 'application/pdf', bytes }, name)
}

/** The price as a PDF, with what was picked of it. */
export async function makePricePaper(
  deps: Deps,
  opened: OpenedLink,
  picked: Typed,
  language: Language,
): Promise<Buffer> {
  const link = await withPicksOrNone(deps, opened, picked)
  return makePaper(await viewPricePaper(deps, link, language))
}
