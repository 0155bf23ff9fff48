import type { FastifyInstance, FastifyReply } from 'fastify'
import { noteAccess } from '../account/access-log.ts'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { datedDay } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { readDayPaid } from '../payments/form.ts'
import { findChecksOfErased, returnCheckOfErased } from '../payments/returned-of-erased.ts'
import { idOf } from '../people/routes.ts'
import { requireHead } from '../places/queries.ts'
import { eraseCustomer } from './erase.ts'
import { zipOfPeople } from './export.ts'
import { findStanding, type HeldUp, heldUp } from './may-erase.ts'
import { peopleOf } from './people.ts'

declare module '../http/render.ts' {
  interface Views {
    'privacy/erase': ErasePage
  }
}

interface ErasePage {
  id: number
  name: string
  isErased: boolean
  requests: string[]
  /** What stands in the way, a sentence each, and the request that it is about. */
  held: { words: string; number: string }[]
  /** Of which requests something stays, and until when. */
  stays: { number: string; until: string }[]
  /** Checks that may come back still, once they are erased. */
  checks: { id: number; words: string }[]
  today: string
  values: Typed
  errors: Errors
}

interface OfOne {
  Params: { id: string }
}

/** What takes somebody's data out or away. */
const DANGEROUS = { config: { access: 'owner', dangerous: true } } as const
const OWNER = { config: { access: 'owner' } } as const

const WORD = 'erase'

const HELD: Record<HeldUp['why'], string> = {
  work: 'Work is booked, or a day is asked for. Do it or cancel it first.',
  bill: 'The work is done and not billed yet. Make the bill first.',
  money: 'Money is owed, or you hold a deposit. Settle that first.',
  credit: 'They have a credit with you. Give it back first.',
}

/** One person's data: taken out as a zip, and erased. */
export function personRoutes(app: FastifyInstance, deps: Deps): void {
  app.post<OfOne>('/customers/:id/export', DANGEROUS, async (request, reply) => {
    const id = await requireHead(deps.db, 'customer', idOf(request.params.id))
    const people = await peopleOf(deps.db, id)
    const standing = await findStanding(deps.db, people.requests)
    const entry = { account_id: requireAccount(request).id, verb: 'exported', customer_id: id } as const
    await noteAccess(deps.db, entry, standing, deps.now())
    return reply
      .header('content-disposition', `attachment; filename="customer-${id}.zip"`)
      .header('cache-control', 'no-store')
      .type('application/zip')
      .send(zipOfPeople(deps, people))
  })

  app.post<OfOne & { Params: { payment: string } }>(
    '/customers/:id/returned/:payment',
    OWNER,
    async (request, reply) => {
      const id = await requireHead(deps.db, 'customer', idOf(request.params.id))
      const paymentId = idOf(request.params.payment)
      const fields = new FormFields(request.body)
      const day = readDayPaid(fields, `returned.${paymentId}`, await todayOf(deps))
      const reading = fields.reading(day)
      if (!reading.ok) return show(deps, reply, id, reading.typed, reading.errors, 422)
      await returnCheckOfErased(deps, requireAccount(request).id, { paymentId, day })
      say(reply, 'The check is undone. The accountant’s page has it.')
      return reply.redirect(`/customers/${id}/erase`, 303)
    },
  )

  app.get<OfOne>('/customers/:id/erase', OWNER, (request, reply) =>
    show(deps, reply, idOf(request.params.id)),
  )

  app.post<OfOne>('/customers/:id/erase', DANGEROUS, async (request, reply) => {
    const id = await requireHead(deps.db, 'customer', idOf(request.params.id))
    const fields = new FormFields(request.body)
    const typed = fields.text('word')
    if (typed.trim().toLowerCase() !== WORD)
      return show(deps, reply, id, { word: typed }, { word: `Type “${WORD}” to go on.` }, 422)
    const erased = await eraseCustomer(deps, requireAccount(request).id, id)
    if (erased.is === 'held') return show(deps, reply, id, { word: typed }, {}, 409)
    // Noted at the next start, and every night, at the latest.
    await deps.noteErased?.().catch(err => request.log.error({ err }, 'fault in noting who was erased'))
    say(reply, erased.is === 'erased' ? 'They are erased.' : 'They were erased before.')
    return reply.redirect(`/customers/${id}/erase`, 303)
  })
}

async function show(
  deps: Deps,
  reply: FastifyReply,
  id: number,
  values: Typed = {},
  errors: Errors = {},
  status = 200,
): Promise<FastifyReply> {
  const head = await requireHead(deps.db, 'customer', id)
  if (head !== id) return reply.redirect(`/customers/${head}/erase`, 303)
  const people = await peopleOf(deps.db, id)
  const standing = await findStanding(deps.db, people.requests)
  const rows = await deps.db
    .selectFrom('customer')
    .select(['name', 'erased_at'])
    .where('id', 'in', people.customers)
    .orderBy('id', 'desc')
    .execute()
  const open = standing.filter(({ erased_at }) => erased_at === null)
  const held = await heldUp(deps.db, people.customers, open)
  const { currency } = await requireBusiness(deps.db)
  const checks = await findChecksOfErased(deps.db, people.requests)
  const page = {
    checks: checks.map(check => ({
      id: check.id,
      words: `${check.number}: ${moneyInWords(check.amount, currency, 'en')}, ${datedDay(check.day)}`,
    })),
    today: await todayOf(deps),
    ...{ id, values, errors, name: rows[0]!.name, requests: open.map(({ number }) => number) },
    isErased: open.length === 0 && rows.every(({ erased_at }) => erased_at !== null),
    held: held.map(({ number, why }) => ({ number, words: HELD[why] })),
    stays: standing.flatMap(({ number, kept_until, papers_erased_at }) =>
      kept_until === null || papers_erased_at !== null ? [] : [{ number, until: datedDay(kept_until) }],
    ),
  }
  return reply.page('privacy/erase', page, status)
}

async function todayOf({ db, now }: Deps): Promise<string> {
  return dayOf(now(), (await requireBusiness(db)).time_zone)
}
