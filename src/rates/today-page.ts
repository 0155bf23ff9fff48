import type { FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { drawFinish } from '../drawing/finish-tile.ts'
import { NotFound } from '../http/errors.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { type JobTouched, jobInWords } from './job-in-words.ts'
import { findJobsWith } from './job-queries.ts'
import { requireFinish } from './new-price.ts'
import { boughtInWords, isSamePrice, type PricesGiven, priceInWords, pricesOf } from './pack-prices.ts'
import { findNewestVersion, findRateTable, findVersion, findVersionBefore } from './queries.ts'
import { mayTakeBack } from './take-back.ts'
import { findWaiting, type Waiting } from './versions/waiting.ts'

declare module '../http/render.ts' {
  interface Views {
    'rates/today': {
      finishes: {
        slug: string
        name: string
        prices: string[]
        soldOut: boolean
        swatch: string
      }[]
    }
    'rates/new-price': {
      finish: { slug: string; name: string }
      version: number
      waiting: Waiting[]
      fields: {
        name: string
        label: string
        per: string
        now: string
        /** A price that is asked about, as typed and in words. */
        asked: { value: string; words: string } | null
      }[]
      values: Record<string, string>
    }
    'rates/jobs-touched': {
      finish: { slug: string; name: string }
      version: number
      changes: { label: string; was: string; now: string; per: string }[]
      /** Where that changed: whether it is sold out from this version on. */
      soldOut: boolean | null
      mayTakeBack: boolean
      booked: JobTouched[]
      quoted: JobTouched[]
    }
  }
}

/** The finishes to choose from, each with what it is bought at now. */
export async function showFinishes(deps: Deps, reply: FastifyReply): Promise<FastifyReply> {
  const { body } = await requireInForce(deps)
  return reply.page('rates/today', {
    finishes: body.finishes.map(finish => ({
      slug: finish.slug,
      name: finish.name.en,
      prices: boughtInWords(finish, body),
      soldOut: finish.soldOut,
      swatch: drawFinish(finish, `today-${finish.slug}`),
    })),
  })
}

/** The prices of one finish to be changed, with what was typed when it is shown again. */
export async function showPrices(
  deps: Deps,
  reply: FastifyReply,
  slug: string,
  again?: { typed: Typed; errors: Errors; status: number; version?: number; asked?: PricesGiven },
): Promise<FastifyReply> {
  const { body } = await requireInForce(deps)
  const newest = await findNewestVersion(deps.db)
  const finish = requireFinish(body, slug)
  const prices = pricesOf(finish, body.units)
  const data = {
    finish: { slug, name: finish.name.en },
    // A form that was refused for a figure is still of the version that it was filled in from.
    version: again?.version ?? newest!.version,
    waiting: await findWaiting(deps.db, deps.now()),
    fields: prices.map(({ name, label, per, each }) => ({
      name,
      label,
      per,
      now: each && priceInWords(each, body.currency),
      asked: askedIn(again?.asked?.[name], body.currency),
    })),
    values: again?.typed ?? {
      ...Object.fromEntries(prices.map(({ name, each }) => [name, each])),
      ...(finish.soldOut ? { soldOut: 'yes' } : {}),
    },
    errors: again?.errors ?? {},
  }
  return reply.page('rates/new-price', data, again?.status)
}

/** What a version changed of a finish's prices, and what that makes of the jobs that are quoted or booked with it. */
export async function showJobsTouched(
  deps: Deps,
  reply: FastifyReply,
  slug: string,
  version: number,
): Promise<FastifyReply> {
  const before = await findVersionBefore(deps.db, version)
  const after = await findVersion(deps.db, version)
  if (!before || !after) throw new NotFound()
  const finish = requireFinish(after.body, slug)
  const { currency, units } = after.body
  const finishBefore = requireFinish(before.body, slug)
  const earlier = pricesOf(finishBefore, units)
  const jobs = await findJobsWith(deps.db, slug)
  const inWords = (booked: boolean) =>
    jobs
      .filter(({ stage }) => booked === (stage !== 'quoted' && stage !== 'day asked'))
      .map(job => jobInWords(job, before.body, after.body))
  return reply.page('rates/jobs-touched', {
    finish: { slug, name: finish.name.en },
    version,
    changes: pricesOf(finish, units).flatMap(({ name, label, per, each }) => {
      const was = earlier.find(one => one.name === name)?.each ?? ''
      if (isSamePrice(was, each)) return []
      return [{ label, per, was: priceInWords(was, currency), now: priceInWords(each, currency) }]
    }),
    soldOut: finish.soldOut === finishBefore.soldOut ? null : finish.soldOut,
    mayTakeBack: await mayTakeBack(deps.db, version),
    booked: inWords(true),
    quoted: inWords(false),
  })
}

function askedIn(value: string | undefined, currency: string) {
  return value === undefined ? null : { value, words: priceInWords(value, currency) }
}

async function requireInForce(deps: Deps) {
  const inForce = await findRateTable(deps.db, deps.now())
  if (!inForce) throw new NotFound()
  return inForce
}
