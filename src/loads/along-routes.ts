import type { FastifyInstance, FastifyReply } from 'fastify'
import type { PackOf } from '../db/schema/goods.ts'
import type { Deps } from '../deps.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { Refusal } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { findRateTable } from '../rates/queries.ts'
import { findThings, upsertThings } from './queries.ts'

const OFFICE = { config: { access: 'office' } } as const
const PAGE = '/loads/along'
const MOST = 1000

declare module '../http/render.ts' {
  interface Views {
    'loads/along': { lists: { field: string; label: string }[]; values: Typed }
  }
}

interface List {
  of: PackOf | 'always'
  slug: string
  field: string
  label: string
}

/** What to take along: what the owner lists for every day, and for each material and extra. */
export function alongRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, OFFICE, async (_request, reply) => {
    const lists = await requireLists(deps)
    const kept = await findThings(deps.db)
    const values = Object.fromEntries(
      lists.map(({ of, slug, field }) => [
        field,
        kept.find(one => one.of === of && one.slug === slug)?.things ?? '',
      ]),
    )
    return show(reply, lists, values)
  })

  app.post(PAGE, OFFICE, async (request, reply) => {
    const lists = await requireLists(deps)
    const fields = new FormFields(request.body)
    const typed = lists.map(list => ({
      ...list,
      things: fields.lines(list.field, { most: MOST, tooLong: `Keep it under ${MOST} characters.` }),
    }))
    const reading = fields.reading(typed)
    if (!reading.ok) return show(reply, lists, reading.typed, reading.errors)
    await deps.db.transaction().execute(async trx => {
      for (const { of, slug, things } of reading.values) await upsertThings(trx, of, slug, things)
    })
    say(reply, 'What to take along is kept.')
    return reply.redirect(PAGE, 303)
  })
}

async function requireLists(deps: Deps): Promise<List[]> {
  const rates = await findRateTable(deps.db, deps.now())
  if (!rates) throw new Refusal(503, 'error.not-open')
  return listsOf(rates.body)
}

function listsOf({ finishes, extras }: RateTable): List[] {
  const listed = (of: PackOf) => (thing: { slug: string; name: { en: string } }) => ({
    ...{ of, slug: thing.slug, field: `things.${of}.${thing.slug}` },
    label: `With ${thing.name.en}`,
  })
  const always: List = { of: 'always', slug: '', field: 'things.always', label: 'Every day' }
  return [always, ...finishes.map(listed('finish')), ...extras.map(listed('extra'))]
}

function show(reply: FastifyReply, lists: List[], values: Typed, errors: Errors = {}) {
  const shown = lists.map(({ field, label }) => ({ field, label }))
  return reply.page(
    'loads/along',
    { lists: shown, values, errors },
    Object.keys(errors).length > 0 ? 422 : 200,
  )
}
