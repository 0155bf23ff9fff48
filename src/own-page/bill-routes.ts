import type { FastifyInstance, FastifyRequest } from 'fastify'
import { sendBillPaper } from '../billing/paper.ts'
import { type BillRow, findBills } from '../billing/queries.ts'
import { type BillView, viewBill } from '../billing/view.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { languageOf } from '../http/language.ts'
import { FEW_A_MINUTE, MANY_A_MINUTE } from '../http/rate-limits.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { requireStanding } from '../rates/standing.ts'

declare module '../http/render.ts' {
  interface Views {
    'own-page/bill': { bill: BillView; pdfPath: string; ownPath: string }
  }
}

type ByToken = { Params: { token: string; bill: string } }

/** The bills and credit memos of a request, behind the link of its own page. */
export function billOfOwnRoutes(
  app: FastifyInstance,
  deps: Deps,
  requireByToken: (request: FastifyRequest<ByToken>) => Promise<number>,
): void {
  app.get<ByToken>(
    '/r/:token/bills/:bill',
    { config: { access: 'link', ...MANY_A_MINUTE } },
    async (request, reply) => {
      const bill = await requireOwnBill(request)
      const { business } = await requireStanding(deps)
      const ownPath = `/r/${request.params.token}`
      const pdfPath = `${ownPath}/bills/${bill.number}/bill.pdf`
      const view = await viewBill(deps, business, bill, languageOf(request))
      return reply.page('own-page/bill', { bill: view, pdfPath, ownPath })
    },
  )

  app.get<ByToken>(
    '/r/:token/bills/:bill/bill.pdf',
    { config: { access: 'link', ...FEW_A_MINUTE } },
    async (request, reply) => {
      const bill = await requireOwnBill(request)
      const { business } = await requireStanding(deps)
      return sendBillPaper(deps, reply, business, bill, languageOf(request))
    },
  )

  async function requireOwnBill(request: FastifyRequest<ByToken>): Promise<BillRow> {
    const id = await requireByToken(request)
    const bill = (await findBills(deps.db, id)).find(({ number }) => number === request.params.bill)
    if (!bill) throw new NotFound()
    return bill
  }
}

/** Where the bills of a request are read, the newest first. */
export async function billLinks(
  deps: Deps,
  quoteRequestId: number,
  ownPath: string,
  language: Language,
): Promise<{ address: string; words: string; isFirst: boolean }[]> {
  const bills = await findBills(deps.db, quoteRequestId)
  return bills.reverse().map(({ number, kind, credited_by, is_firm }) => {
    const isFirst = kind === 'bill' && credited_by === null
    const key = !isFirst ? 'bill.see-number' : is_firm ? 'bill.see-invoice' : 'bill.see-bill'
    return { address: `${ownPath}/bills/${number}`, words: t(language, key, { number }), isFirst }
  })
}
