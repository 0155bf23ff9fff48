import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { seesCosts } from '../http/roles.ts'
import { translator } from '../language/catalogue.ts'
import { dayInWords, shortDate } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { cents } from '../lib/decimal.ts'
import { findLoads } from './find-load.ts'
import { lastGot } from './get.ts'
import { viewMiles } from './miles-view.ts'
import { findOrdersOfDay } from './orders-of-day.ts'
import { findGoingOn, findOnTruck, findSoldOutAtYard, findThings } from './queries.ts'
import { thingsFor } from './things.ts'
import { type Reader, viewGot, viewLines } from './view-load.ts'
import { viewTrips } from './view-trips.ts'

/** All that a day's load list shows; money to the owner alone. */
export async function viewLoadPage(deps: Deps, business: Business, day: string, reader: Reader) {
  const { language } = reader
  const today = dayOf(deps.now(), business.time_zone)
  const { table, loads } = await findLoads(deps.db, deps.now(), { today, first: day, last: day })
  const [load] = loads
  const goingOn = await findGoingOn(deps.db, day)
  const onTruck = new Map((await findOnTruck(deps.db, day)).map(({ thing, by_name }) => [thing, by_name]))
  const jobIds = load?.jobs.map(({ id }) => id) ?? []
  const soldOut = await findSoldOutAtYard(deps.db, jobIds)
  const isPriced = seesCosts(reader.account)
  const money = (amount: Parameters<typeof cents>[0]) => moneyInWords(cents(amount), table.currency, language)
  const orders = await findOrdersOfDay(deps.db, day)
  const lines = load
    ? viewLines(load, table, { soldOut, orders }, reader)
    : { takes: [], pickUp: [], delivered: [] }
  return {
    day,
    words: dayInWords(day, language),
    seen: load ? lastGot(load) : 0,
    jobs: (load?.jobs ?? []).map(({ number, customer, street, postcode, is_erased }) => ({
      number,
      isErased: is_erased,
      customer,
      place: [street, postcode].filter(Boolean).join(', '),
    })),
    goingOn: goingOn.map(({ number, customer, first_day }) => ({
      number,
      customer,
      since: shortDate(first_day, language),
    })),
    unreadable: load?.unreadable ?? [],
    ...lines,
    got: load ? viewGot(load, table, reader) : [],
    trips: load ? viewTrips(load, table, reader) : null,
    along: thingsFor(await findThings(deps.db), load?.wanted ?? [], language).map(thing => ({
      ...thing,
      by: onTruck.get(thing.value) ?? null,
    })),
    miles: await viewMiles(deps.db, { day, today }, reader),
    milesTitle: translator(language)(business.units === 'us' ? 'miles.title' : 'miles.title-km'),
    total: isPriced && load?.total?.gt(0) ? money(load.total) : '',
    saved: isPriced && load?.saved?.gt(0) ? money(load.saved) : '',
  }
}

export type LoadPage = Awaited<ReturnType<typeof viewLoadPage>>
