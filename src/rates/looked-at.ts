import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { findTableAndLookedAt, insertLookedAt, type LookedAt } from './queries.ts'
import { asOneText } from './start/start-figure.ts'
import { type FigureGroup, startFigureValues, unconfirmedGroups } from './start/start-figures.ts'

/** The figures of the rate table in force that no source stands behind and nobody has looked at; none before set-up. */
export async function findNotLookedAt(db: Kysely<Database>, now: Temporal.Instant): Promise<FigureGroup[]> {
  const found = await findTableAndLookedAt(db, now)
  if (!found) return []
  const seen = new Set(found.lookedAt.map(asTick))
  return unconfirmedGroups(found.body)
    .map(({ title, figures }) => ({
      title,
      figures: figures.filter(({ key, now }) => !seen.has(asTick({ key, figure: asOneText(now) }))),
    }))
    .filter(({ figures }) => figures.length > 0)
}

/** How many there are of them. */
export async function countNotLookedAt(db: Kysely<Database>, now: Temporal.Instant): Promise<number> {
  return countOf(await findNotLookedAt(db, now))
}

export function countOf(groups: FigureGroup[]): number {
  return groups.reduce((sum, { figures }) => sum + figures.length, 0)
}

/** What became of ticks: newly looked at, looked at before, and those whose figure isn't any more what was looked at. */
export interface Confirmed {
  added: number
  before: number
  changed: number
}

/**
 * Keeps that figures were looked at, each with the value that was seen: one that was changed meanwhile isn't taken.
 * It changes no rate and makes no version; asked twice, the second time does nothing. Unknown keys are passed over.
 */
export async function confirmFigures(deps: Deps, accountId: number, ticks: LookedAt[]): Promise<Confirmed> {
  return deps.db.transaction().execute(async trx => {
    const found = await findTableAndLookedAt(trx, deps.now())
    if (!found) throw new NotFound()
    const values = startFigureValues(found.body)
    const known = [...new Map(ticks.map(tick => [asTick(tick), tick])).values()].filter(({ key }) =>
      values.has(key),
    )
    const unconfirmed = unconfirmedGroups(found.body).flatMap(({ figures }) => figures)
    const isNow = ({ key, figure }: LookedAt) =>
      unconfirmed.some(one => one.key === key && asOneText(one.now) === figure)
    const right = known.filter(isNow)
    const made = { at: deps.now().toString(), by: accountId }
    const rows = right.map(({ key, figure }) => ({ key, figure, ...made }))
    const added = rows.length > 0 ? await insertLookedAt(trx, rows) : 0
    return { added, before: right.length - added, changed: known.length - right.length }
  })
}

/** A figure and its value as one text, as a tick of the form sends it. */
export function asTick({ key, figure }: LookedAt): string {
  return `${key}=${figure}`
}

/** What ticks of the form stand for; what is none is passed over. */
export function readTicks(texts: string[]): LookedAt[] {
  return texts.flatMap(text => {
    const at = text.indexOf('=')
    return at > 0 ? [{ key: text.slice(0, at), figure: text.slice(at + 1) }] : []
  })
}
