import type { FastifyReply, FastifyRequest } from 'fastify'
import { type Business, requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { FormFields } from '../http/form-fields.ts'
import { countByHand } from '../outbox/by-hand.ts'
import { countNotLookedAt } from '../rates/looked-at.ts'
import { findQueue, type QueueRow, searchQueue } from './list.ts'
import { isStep, STEPS, type Step } from './next-step.ts'
import { type RowView, rowInWords } from './row-words.ts'

const LONGEST_SEARCH = 100

export interface StepView {
  step: Step
  count: number
  rows: RowView[]
  /** Where the rows go on; null when all are shown. */
  olderPath: string | null
  olderCount: number
}

export interface ListPage {
  steps: StepView[]
  only: Step | null
  /** How many figures behind every ballpark nobody has looked at; told above the whole list. */
  notLookedAt: number
  /** How many messages wait to be passed on by hand; told above the whole list. */
  byHand: number
  /** What may cost something else today; told above the whole list alone. */
  finishes: { slug: string; name: string }[]
  search: null | { typed: string; rows: RowView[]; olderPath: string | null }
}

/** The list under its next steps; one step from a place on (`step`, `from`); or what a search finds (`q`, `before`). */
export async function showQueue(deps: Deps, request: FastifyRequest, reply: FastifyReply) {
  const asked = new FormFields(request.query)
  const typed = asked.text('q').slice(0, LONGEST_SEARCH)
  const business = await requireBusiness(deps.db)
  if (typed)
    return reply.page('queue/list', await searchPage(deps, business, typed, countOf(asked.text('before'))))
  const step = asked.text('step')
  const only = isStep(step) ? { step, from: countOf(asked.text('from')) ?? 0 } : null
  const rows = await findQueue(deps.db, only)
  const steps = STEPS.map(name => viewStep(deps, business, name, rows, only?.from ?? 0))
  return reply.page('queue/list', {
    steps: steps.filter(view => view.count > 0),
    only: only?.step ?? null,
    notLookedAt: only ? 0 : await countNotLookedAt(deps.db, deps.now()),
    byHand: only ? 0 : await countByHand(deps),
    finishes: only ? [] : await finishesInForce(deps),
    search: null,
  })
}

async function finishesInForce(deps: Deps): Promise<ListPage['finishes']> {
  const { rates } = await deps.standing.read()
  return (rates?.body.finishes ?? []).map(({ slug, name }) => ({ slug, name: name.en }))
}

async function searchPage(
  deps: Deps,
  business: Business,
  typed: string,
  before: number | null,
): Promise<ListPage> {
  const found = await searchQueue(deps.db, typed, before)
  const last = found.rows.at(-1)
  const older =
    found.more && last ? `/queue?${new URLSearchParams({ q: typed, before: String(last.id) })}` : null
  const rows = found.rows.map(row => rowInWords(row, business, deps.now()))
  return {
    steps: [],
    only: null,
    notLookedAt: 0,
    byHand: 0,
    finishes: [],
    search: { typed, rows, olderPath: older },
  }
}

function viewStep(deps: Deps, business: Business, step: Step, all: QueueRow[], from: number): StepView {
  const rows = all.filter(row => row.step === step)
  const count = rows[0]?.of_step ?? 0
  const shown = from + rows.length
  return {
    step,
    count,
    rows: rows.map(row => rowInWords(row, business, deps.now())),
    olderPath: count > shown ? `/queue?${new URLSearchParams({ step, from: String(shown) })}` : null,
    olderCount: count - shown,
  }
}

function countOf(typed: string): number | null {
  return /^\d{1,9}$/.test(typed) ? Number(typed) : null
}
