import type { FastifyInstance, FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { takeUploads } from '../http/uploads.ts'
import { dayOf } from '../lib/dates.ts'
import { findPapers, forgetReplaced, insertFile, type Paper } from '../papers/queries.ts'
import { readPaper, UPLOAD_LIMIT } from '../papers/read-file.ts'
import { sendFile } from '../papers/send-file.ts'
import { certificateInWords } from '../places/firm-words.ts'
import {
  type Firm,
  findCertificate,
  findFirm,
  keepCertificate,
  keepOrderNumber,
  saveFirm,
} from '../places/firms.ts'
import { requireCustomer, requireHead } from '../places/queries.ts'
import { recordHistory } from '../requests/history.ts'
import { requireRequestId } from '../requests/queries.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { firmTyped, readFirm, readOrderNumber } from './firm-form.ts'
import { findCustomers } from './queries.ts'
import { idOf } from './routes.ts'

declare module '../http/render.ts' {
  interface Views {
    'people/firm': {
      customerId: number
      name: string
      certificate: string | null
      hasFile: boolean
      papers: (Paper & { chosen: boolean })[]
      values: Typed
    }
  }
}

const OFFICE = { config: { access: 'office' } } as const

interface OfOne {
  Params: { id: string }
}

/** What is agreed with a firm or an association, and the number that an order has with them. */
export async function firmRoutes(app: FastifyInstance, deps: Deps): Promise<void> {
  app.get<OfOne>('/customers/:id/firm', OFFICE, (request, reply) =>
    showFirm(deps, reply, idOf(request.params.id)),
  )

  app.post<OfOne>('/customers/:id/firm', OFFICE, async (request, reply) => {
    const id = await requireCustomer(deps.db, idOf(request.params.id))
    const fields = new FormFields(request.body)
    const reading = readFirm(fields, await findPapers(deps.db))
    if (!reading.ok) return showFirm(deps, reply, id, { ...reading, papers: fields.ticks('papers') })
    await saveFirm(deps.db, id, reading.values, { at: deps.now(), by: requireAccount(request).id })
    say(reply, 'That’s saved.')
    return reply.redirect(`/customers/${id}`, 303)
  })

  app.get<OfOne>('/customers/:id/firm/certificate', OFFICE, async (request, reply) => {
    const id = await requireHead(deps.db, 'customer', idOf(request.params.id))
    return sendFile(reply, await findCertificate(deps.db, id), 'certificate')
  })

  await app.register(async scope => {
    takeUploads(scope, UPLOAD_LIMIT)
    scope.post<OfOne>('/customers/:id/firm/certificate', OFFICE, async (request, reply) => {
      const id = await requireCustomer(deps.db, idOf(request.params.id))
      const read = await readPaper(new FormFields(request.body).file('certificate'))
      if (!read.ok) {
        const again = { ...firmAgain(await findFirm(deps.db, id)), errors: { certificate: read.fault } }
        return showFirm(deps, reply, id, again)
      }
      await deps.db.transaction().execute(async trx => {
        const saved = { at: deps.now(), by: requireAccount(request).id }
        await keepCertificate(trx, id, await insertFile(trx, read, saved), saved)
        await forgetReplaced(trx)
      })
      say(reply, 'The certificate is kept.')
      return reply.redirect(`/customers/${id}/firm`, 303)
    })
  })

  app.post<{ Params: { number: string } }>('/queue/:number/order', OFFICE, async (request, reply) => {
    const { number } = request.params
    const id = await requireRequestId(deps.db, number)
    const reading = readOrderNumber(new FormFields(request.body))
    if (!reading.ok) say(reply, 'That purchase order number is too long. Nothing was saved.')
    else if (await noteOrderNumber(deps, requireAccount(request).id, id, reading.values))
      say(reply, 'The purchase order number is saved.')
    return reply.redirect(`/queue/${number}`, 303)
  })
}

function firmAgain(firm: Firm | undefined) {
  return { typed: firmTyped(firm), papers: (firm?.paper_ids ?? []).map(String) }
}

/** Notes the customer's number of an order; the same again changes nothing. Gives whether it was another one. */
async function noteOrderNumber(deps: Deps, accountId: number, id: number, number: string): Promise<boolean> {
  const at = deps.now()
  return deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, id)
    if (!(await keepOrderNumber(trx, id, number, at))) return false
    await recordHistory(trx, id, { kind: 'staff', accountId }, 'purchase order', at, { number })
    return true
  })
}

async function showFirm(
  deps: Deps,
  reply: FastifyReply,
  id: number,
  again?: { typed: Typed; errors: Errors; papers: string[] },
): Promise<FastifyReply> {
  const head = await requireHead(deps.db, 'customer', id)
  if (head !== id) return reply.redirect(`/customers/${head}/firm`, 303)
  const firm = await findFirm(deps.db, id)
  const { time_zone } = await requireBusiness(deps.db)
  const [customer] = await findCustomers(deps.db, id)
  const page = {
    customerId: id,
    name: customer!.name,
    certificate: firm ? certificateInWords(firm, dayOf(deps.now(), time_zone)) : null,
    hasFile: (await findCertificate(deps.db, id)) !== undefined,
    papers: (await findPapers(deps.db)).map(paper => ({
      ...paper,
      chosen: again ? again.papers.includes(String(paper.id)) : (firm?.paper_ids.includes(paper.id) ?? false),
    })),
    values: again?.typed ?? firmTyped(firm),
    errors: again?.errors ?? {},
  }
  return reply.page('people/firm', page, again ? 422 : 200)
}
