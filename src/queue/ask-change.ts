import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { recordHistory } from '../requests/history.ts'
import { requireRequest } from '../requests/queries.ts'
import { lockQuoteRequest, refusalAt } from '../requests/stage.ts'

declare module '../http/render.ts' {
  interface Views {
    'queue/ask-change': { number: string; customer: string; street: string; values: Typed }
  }
}

const MOST = 1000

interface OfRequest {
  Params: { number: string }
}

/** Whoever works on a booked job asks for a change to it, without seeing any money: the owner prices it and sends it. */
export function askChangeRoutes(app: FastifyInstance, deps: Deps): void {
  const staff = { config: { access: 'staff' as const } }

  app.get<OfRequest>('/days/jobs/:number/change', staff, (request, reply) =>
    show(deps, reply, request.params.number),
  )

  app.post<OfRequest>('/days/jobs/:number/change', staff, async (request, reply) => {
    const { number } = request.params
    const fields = new FormFields(request.body)
    const words = fields.lines('words', {
      most: MOST,
      missing: 'Say what is different from what was agreed.',
      tooLong: `Keep it under ${MOST} characters.`,
    })
    const reading = fields.reading({ words })
    if (!reading.ok) return show(deps, reply, number, reading)
    await askChange(deps, requireAccount(request).id, await requireBooked(deps, number), words)
    say(reply, 'Sent. Go by what was agreed until the customer accepts the change.')
    return reply.redirect('/days', 303)
  })
}

async function show(
  deps: Deps,
  reply: FastifyReply,
  number: string,
  again?: { typed: Typed; errors: Errors },
) {
  await requireBooked(deps, number)
  const { customer_name: customer, street } = await requireRequest(deps.db, number)
  const page = { number, customer, street, values: again?.typed ?? {}, errors: again?.errors ?? {} }
  return reply.page('queue/ask-change', page, again ? 422 : 200)
}

async function requireBooked(deps: Deps, number: string): Promise<number> {
  const { id, stage } = await requireRequest(deps.db, number)
  if (stage !== 'booked') throw new Conflict('error.stage', { number })
  return id
}

/** Asks for a change, and tells the owner; the same words again, as by a second press, change nothing. */
export async function askChange(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  words: string,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const request = await lockQuoteRequest(trx, quoteRequestId)
    if (request.stage !== 'booked') throw refusalAt(request)
    if ((await findChangeAsked(trx, quoteRequestId))?.words === words) return
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'change asked', now, { words })
    await putInOutbox(trx, deps.jobs, 'change-asked-staff', 'owner', quoteRequestId, now)
  })
}

/** The change that was asked for last and that no newer quote answers: by whom, in their words. */
export async function findChangeAsked(
  db: Kysely<Database>,
  quoteRequestId: number,
): Promise<{ words: string; by: string } | undefined> {
  const row = await db
    .selectFrom('history')
    .leftJoin('account', 'account.id', 'history.account_id')
    .select(['history.verb', 'history.detail', 'account.name'])
    .where('quote_request_id', '=', quoteRequestId)
    .where('verb', 'in', ['change asked', 'quoted'])
    .orderBy('history.id', 'desc')
    .limit(1)
    .executeTakeFirst()
  return row?.verb === 'change asked' ? { words: row.detail.words ?? '', by: row.name ?? '' } : undefined
}
