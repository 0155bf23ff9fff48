import type { FastifyReply, FastifyRequest } from 'fastify'
import { findStaff } from '../account/queries.ts'
import { type Business, requireBusiness } from '../business/queries.ts'
import { STEPS, type Step } from '../db/schema/stages.ts'
import type { Deps } from '../deps.ts'
import { FormFields } from '../http/form-fields.ts'
import { dayOf } from '../lib/dates.ts'
import { countByHand } from '../outbox/by-hand.ts'
import { countNotLookedAt } from '../rates/looked-at.ts'
import { countMaybeJunk } from '../requests/maybe-junk/queries.ts'
import { findBackupTrouble } from '../store-backup.ts'
import { type Asked, pathOf, readAsked } from './asked.ts'
import { countApart, findApart, findNews, findQueue, findStep, type Page } from './list.ts'
import { type NewsView, newsInWords } from './news-words.ts'
import { type RowView, rowInWords } from './row-words.ts'
import { searchQueue } from './search.ts'
import { countSteps, MOST_COUNTED, type SeenAt } from './steps.ts'

/** Some rows under a heading. */
export interface PartView {
  heading: string
  /** How many there are, as '12', or '999+'; '' where nobody counted. */
  count: string
  rows: RowView[]
  /** Where the rows go on, and what is said of it; null when all are shown. */
  more: { path: string; words: string } | null
}

export interface ListPage {
  /** What stands out until somebody has looked. */
  news: NewsView[]
  parts: PartView[]
  /** Whether this is the whole list, or what the address narrows it to. */
  whole: boolean
  /** What is said where there is nothing, and what was searched for, ''. */
  nothing: string
  typed: string
  /** Whose requests are shown, to pick from; none where nobody helps. */
  people: { name: string; path: string; current: boolean }[]
  who: string
  apart: { words: string; path: string }[]
  /** How many are held as maybe junk; told above the whole list. */
  maybeJunk: number
  /** How many figures behind every ballpark nobody has looked at; told above the whole list. */
  notLookedAt: number
  /** How many messages wait to be passed on by hand; told above the whole list. */
  byHand: number
  /** What is wrong with the nightly backups, above the whole list; null when nothing is. */
  backupTrouble: string | null
  /** What may cost something else today; told above the whole list alone. */
  finishes: { slug: string; name: string }[]
}

/** The list as its address asks for it: whole, one step, whose, what a search finds, or what is held apart. */
export async function showQueue(deps: Deps, request: FastifyRequest, reply: FastifyReply) {
  const asked = readAsked(new FormFields(request.query))
  const business = await requireBusiness(deps.db)
  const at = { now: deps.now(), today: dayOf(deps.now(), business.time_zone) }
  const shown = await partsShown(deps, business, asked, at)
  const whole = !asked.step && !asked.apart && !asked.typed
  return reply.page('queue/list', {
    ...shown,
    whole,
    typed: asked.typed,
    who: asked.who,
    people: await peopleOf(deps, asked),
    news: whole && asked.who === '' ? await newsInWords(await findNews(deps.db), business, at.now) : [],
    apart: whole ? await apartOf(deps, at) : [],
    maybeJunk: whole ? (await countMaybeJunk(deps.db)).held : 0,
    notLookedAt: whole ? await countNotLookedAt(deps.db, at.now) : 0,
    byHand: whole ? await countByHand(deps) : 0,
    backupTrouble: whole ? await findBackupTrouble(deps.db, deps.kind, at.now) : null,
    finishes: whole ? await finishesInForce(deps) : [],
  })
}

async function partsShown(
  deps: Deps,
  business: Business,
  asked: Asked,
  at: SeenAt,
): Promise<Pick<ListPage, 'parts' | 'nothing'>> {
  const { db } = deps
  const viewed = (page: Page, heading: string, count: string, more: PartView['more']): PartView => {
    const rows = page.rows.map(row => rowInWords(row, business, at.now))
    return { heading, count, rows, more: page.more ? more : null }
  }
  if (asked.typed) {
    const page = await searchQueue(db, asked.typed, asked, asked.after?.id ?? null)
    const path = pathOf(asked, { id: page.rows.at(-1)?.id ?? 0, due: '' })
    const nothing = `Nothing found for “${asked.typed}.” Try part of a name, the last digits of a phone number, a street, a word of a note, or a number such as 26-0042.`
    return { parts: [viewed(page, 'Found', '', { path, words: 'Older requests' })], nothing }
  }
  if (asked.apart) {
    const { apart } = asked
    const page = await findApart(db, apart, at, asked.after)
    const last = page.rows.at(-1)
    const due = (apart === 'hold' ? last?.on_hold_until : last?.junk_at) ?? ''
    const path = pathOf(asked, { id: last?.id ?? 0, due })
    const heading = apart === 'hold' ? 'On hold' : 'Junk'
    return {
      parts: [viewed(page, heading, '', { path, words: 'More' })],
      nothing: apart === 'hold' ? 'Nothing is on hold.' : 'Nothing is held apart as junk.',
    }
  }
  const counts = await countSteps(db, asked, at)
  const partOf = (step: Step, page: Page) => {
    const last = page.rows.at(-1)
    const path = pathOf({ ...asked, step }, { id: last?.id ?? 0, due: last?.due_at ?? '' })
    return viewed(page, step, countInWords(counts.get(step) ?? 0), { path, words: `More under ${step}` })
  }
  const nothing = 'Nothing to do right now. Requests from homeowners show up here under their next step.'
  if (asked.step) {
    const page = await findStep(db, asked.step, asked, at, asked.after)
    return { parts: [partOf(asked.step, page)], nothing }
  }
  const pages = await findQueue(db, asked, at)
  const parts = STEPS.filter(step => pages[step].rows.length > 0).map(step => partOf(step, pages[step]))
  return { parts, nothing }
}

function countInWords(count: number): string {
  return count >= MOST_COUNTED ? `${MOST_COUNTED - 1}+` : String(count)
}

async function peopleOf(deps: Deps, asked: Asked): Promise<ListPage['people']> {
  const staff = await findStaff(deps.db)
  if (staff.length < 2) return []
  const people = [
    { who: '', name: 'Everyone’s' },
    ...staff.map(({ id, name }) => ({ who: String(id), name })),
    { who: 'nobody', name: 'Nobody’s' },
  ]
  return people.map(({ who, name }) => ({
    name,
    path: pathOf({ ...asked, who }, null),
    current: who === asked.who,
  }))
}

async function apartOf(deps: Deps, at: SeenAt): Promise<ListPage['apart']> {
  const { hold, junk } = await countApart(deps.db, at)
  return [
    ...(hold > 0 ? [{ words: `On hold: ${hold}`, path: '/queue?show=hold' }] : []),
    ...(junk > 0 ? [{ words: `Junk: ${junk}`, path: '/queue?show=junk' }] : []),
  ]
}

async function finishesInForce(deps: Deps): Promise<ListPage['finishes']> {
  const { rates } = await deps.standing.read()
  return (rates?.body.finishes ?? []).map(({ slug, name }) => ({ slug, name: name.en }))
}
