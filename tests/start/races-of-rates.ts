import { saveDraft } from '../../src/rates/draft/draft.ts'
import { findDraft } from '../../src/rates/draft/queries.ts'
import { requireDraftState, seenOfVersion } from '../../src/rates/draft/state.ts'
import { pricesOf } from '../../src/rates/pack-prices.ts'
import { findNewestVersion } from '../../src/rates/queries.ts'
import { makeVersion } from '../../src/rates/rates.ts'
import { findWaiting } from '../../src/rates/versions/waiting.ts'
import type { TestApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { mine, type Race, shownOn } from './race.ts'
import type { Sent } from './two-services.ts'

const LATER = '2026-06-01'
/** What the races sell out, each a finish that no job of theirs is priced with. */
const [ONE, OTHER] = ['compost', 'stone'] as const

/** What is sold out by the newest version, and what waits. */
async function ratesOf({ db, deps }: TestApp): Promise<string[]> {
  const { body } = (await findNewestVersion(db))!
  const soldOut = body.finishes.filter(one => one.soldOut).map(({ slug }) => slug)
  // The clock of the other process is ahead of ours.
  const tomorrow = deps.now().add({ hours: 24 })
  const waits = (await findWaiting(db, tomorrow)).map(() => 'waits')
  return [...soldOut, ...((await findDraft(db)) ? ['draft'] : []), ...waits]
}

/** The rates with nothing sold out, no draft and nothing that waits; gives the forms that change them. */
const fresh = async (app: TestApp, cookie: string) => {
  await app.db.deleteFrom('rate_draft').execute()
  const { version: before, body } = (await findNewestVersion(app.db))!
  const finishes = body.finishes.map(one => ({ ...one, soldOut: false }))
  await makeVersion(app.deps, 1, before, () => ({ ...body, finishes }))
  const newest = (await findNewestVersion(app.db))!
  const version = String(newest.version)
  const owner = (path: string, form: Record<string, string>): Sent => ({ path, form, cookie })
  return {
    sellOut: (slug: string) => {
      const finish = finishes.find(one => one.slug === slug)!
      const prices = Object.fromEntries(pricesOf(finish, body.units).map(({ name, each }) => [name, each]))
      return owner(`/rates/today/${slug}`, { ...prices, version, soldOut: 'yes' })
    },
    /** A draft in which ONE is sold out, and what becomes of it. */
    draft: async () => {
      const sold = finishes.map(one => ({ ...one, soldOut: one.slug === ONE }))
      const table = { ...newest.body, finishes: sold }
      if (!(await saveDraft(app.deps, 1, seenOfVersion(newest.version), table)))
        throw new Error('The draft wasn’t saved')
      const { seen } = await requireDraftState(app.db)
      return {
        putInForce: (day: string) => owner('/rates/draft/put-in-force', { seen, newest: version, day }),
        drop: owner('/rates/draft/drop', { seen }),
      }
    },
    begin: owner(`/rates/versions/${version}/draft`, {}),
  }
}

/** Versions of the rates as two make them at once: the second is told that there is a newer one. */
export const RATE_RACES: Race[] = [
  {
    name: 'new rates for one finish and for another',
    forms: async (app, cookie) => {
      const { sellOut } = await fresh(app, cookie)
      return [sellOut(ONE), sellOut(OTHER)]
    },
    besides: ratesOf,
    onlyOne: true,
    outcomes: [
      { stages: [], besides: [ONE] },
      { stages: [], besides: [OTHER] },
    ],
  },
  {
    name: 'putting a draft of the rates in force while a new rate is saved',
    forms: async (app, cookie) => {
      const { sellOut, draft } = await fresh(app, cookie)
      return [(await draft()).putInForce(''), sellOut(OTHER)]
    },
    besides: ratesOf,
    onlyOne: true,
    outcomes: [
      { stages: [], besides: [ONE] },
      { stages: [], besides: [OTHER, 'draft'] },
    ],
  },
  {
    name: 'putting a draft of the rates in force today and later',
    forms: async (app, cookie) => {
      const { putInForce } = await (await fresh(app, cookie)).draft()
      return [putInForce(''), putInForce(LATER)]
    },
    besides: ratesOf,
    onlyOne: true,
    outcomes: [
      { stages: [], besides: [ONE] },
      { stages: [], besides: [ONE, 'waits'] },
    ],
  },
  {
    name: 'putting a draft of the rates in force and dropping it',
    forms: async (app, cookie) => {
      const { putInForce, drop } = await (await fresh(app, cookie)).draft()
      return [putInForce(''), drop]
    },
    besides: ratesOf,
    onlyOne: true,
    outcomes: [{ stages: [], besides: [ONE] }, { stages: [] }],
  },
  {
    name: 'beginning a draft of the rates while a new rate is saved',
    forms: async (app, cookie) => {
      const { begin, sellOut } = await fresh(app, cookie)
      return [begin, sellOut(ONE)]
    },
    besides: ratesOf,
    outcomes: [{ stages: [], besides: [ONE, 'draft'] }],
  },
  {
    name: 'sending a price while a new rate is saved',
    forms: async (app, cookie, email) => {
      const { sellOut } = await fresh(app, cookie)
      const { number } = await quotedRequest(app, '0.25', mine(email))
      const shown = await shownOn(app, cookie, `/queue/${number}/quote`)
      const form = { ...shown, laborHours: '0.5', do: 'confirm' }
      return [{ path: `/queue/${number}/quote`, form, cookie }, sellOut(ONE)]
    },
    besides: ratesOf,
    // Whoever sends it after the rates changed is shown what it comes to by them.
    outcomes: [
      { stages: ['quoted'], besides: [ONE] },
      { stages: ['quoted'], history: ['quoted'], outbox: ['quote-ready'], besides: [ONE] },
    ],
  },
]
