import type { FastifyReply } from 'fastify'
import { letterhead, paperSize } from '../bookings/price-paper.ts'
import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { translator } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { makePaper } from '../paper/make-paper.ts'
import type { Paper, PaperPart } from '../paper/paper.ts'
import { findLogo } from '../papers/letterhead.ts'
import { sendFile } from '../papers/send-file.ts'
import type { BillRow } from './queries.ts'
import { type BillView, viewBill } from './view.ts'

/** A bill or a credit memo as a paper: the same words and amounts as on its page. */
async function viewBillPaper(
  deps: Deps,
  business: Business,
  bill: BillRow,
  language: Language,
): Promise<Paper> {
  const view = await viewBill(deps, business, bill, language)
  const say = translator(language, business.country)
  return {
    language,
    title: `${view.heading}, ${business.name}`,
    made: deps.now(),
    size: paperSize(business),
    from: letterhead(business, (await findLogo(deps.db))?.bytes ?? null),
    heading: view.heading,
    about: view.about,
    parts: partsOf(view, say),
    foot: `${business.name}, ${view.number}`,
    pageInWords: (page, pages) => say('paper.page', { page, pages }),
  }
}

function partsOf(view: BillView, say: ReturnType<typeof translator>): PaperPart[] {
  const text = (heading: string, lines: string[]): PaperPart[] =>
    lines.some(Boolean) ? [{ kind: 'text', heading, lines: lines.filter(Boolean) }] : []
  const plain = ({ label, amount }: { label: string; amount: string }) => ({ label, note: null, amount })
  const total = { label: say('bill.total'), amount: view.total }
  const last = view.sums.find(({ isLast }) => isLast)
  const byStop: PaperPart[] = view.byStop
    ? [
        {
          kind: 'amounts',
          heading: say('stops.table'),
          lines: [
            ...view.byStop.stops.flatMap(stop => [
              { label: stop.name, note: stop.spot, amount: stop.subtotal, heads: true },
              ...stop.lines.map(plain),
            ]),
            ...view.byStop.whole.map(plain),
          ],
          total,
          note: null,
        },
      ]
    : []
  return [
    ...text(say('bill.to'), view.to),
    ...byStop,
    {
      kind: 'amounts',
      heading: say(view.byStop ? 'stops.all' : 'bill.lines'),
      lines: view.lines,
      total,
      note: view.taxNote,
    },
    ...(last
      ? [
          {
            kind: 'amounts' as const,
            heading: say('bill.payments'),
            lines: [plain(total), ...view.sums.filter(sum => sum !== last).map(plain)],
            total: plain(last),
            note: [view.stands, ...view.payments].filter(Boolean).join('\n') || null,
          },
        ]
      : text(say('bill.payments'), [view.stands])),
    ...text(say('bill.how'), [view.howTo, view.payLink && say('bill.pay-at', { link: view.payLink })]),
  ]
}

/** Sends a bill as a PDF in a language. */
export async function sendBillPaper(
  deps: Deps,
  reply: FastifyReply,
  business: Business,
  bill: BillRow,
  language: Language,
): Promise<FastifyReply> {
  const bytes = await makeBillPaper(deps, business, bill, language)
  return sendFile(reply, { kind: 'application/pdf', bytes }, bill.number)
}

/** A bill as a PDF in a language. */
export async function makeBillPaper(
  deps: Deps,
  business: Business,
  bill: BillRow,
  language: Language,
): Promise<Buffer> {
  return makePaper(await viewBillPaper(deps, business, bill, language))
}
