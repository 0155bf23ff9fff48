import { tooHeavy, tripVolume } from '../estimate/packs/loads.ts'
import type { Finish, RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { translator } from '../language/catalogue.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { quantityInWords } from '../language/quantity-in-words.ts'
import { Decimal } from '../lib/decimal.ts'
import { nameOfThing, packOf } from '../on-hand/pack-words.ts'
import type { DayLoad } from './find-load.ts'
import { type Carried, planTrips } from './plan-trips.ts'
import { inWholePacks, type Share } from './share-out.ts'
import { packsInWords, type Reader } from './view-load.ts'

/** The trips of a day: what goes on each for which job, how full and how heavy it is, and what would be too heavy. */
export interface TripsView {
  trips: { words: string; loads: { number: string; what: string }[] }[]
  /** Where weight makes for more trips than volume. */
  byVolume: string
  tooHeavy: string[]
  payloadUnknown: boolean
}

interface Source {
  named: { of: 'finish'; slug: string; pack: string }
  carried: Omit<Carried, 'jobId' | 'units' | 'what'>
  shares: Share[]
}

/** The trips that fetch a day's materials; null where nothing is fetched, or nothing that carries is listed. */
export function viewTrips(load: DayLoad, table: RateTable, reader: Reader): TripsView | null {
  const sources = sourcesOf(load, table)
  const carried = load.jobs.flatMap(({ id }) =>
    sources.flatMap((source, what) =>
      source.shares
        .filter(({ jobId, units }) => jobId === id && units.gt(0))
        .map(({ units }): Carried => ({ ...source.carried, jobId: id, units, what })),
    ),
  )
  const plan = carried.length > 0 ? planTrips(carried, table) : null
  if (!plan) return null
  const { language, country } = reader
  const t = translator(language, country)
  const numberOf = (jobId: number) => load.jobs.find(({ id }) => id === jobId)!.number
  const { bulk } = unitSystem(table.units)
  const finishes = [...new Set(carried.map(({ finish }) => finish))]
  return {
    trips: plan.trips.map(({ loads, volume, weight }, index) => ({
      words: t(weight ? 'loads.trip' : 'loads.trip-unweighed', {
        nth: index + 1,
        volume: quantityInWords(volume.toFixed(4), bulk, language, 1),
        weight: weight ? weightInWords(weight, table, reader) : '',
      }),
      loads: loads.map(({ jobId, what, units }) => {
        const { named } = sources[what]!
        const words = `${packsInWords(units, named, table, language)}, ${nameOfThing(named, table, language)}`
        return { number: numberOf(jobId), what: words }
      }),
    })),
    byVolume: plan.byVolume < plan.trips.length ? t('loads.by-volume', { trips: plan.byVolume }) : '',
    tooHeavy: finishes.flatMap(finish => heavyWords(finish, table, reader)),
    payloadUnknown: table.carriers.some(({ payload }) => payload === null),
  }
}

function sourcesOf({ got, takes, lines }: DayLoad, table: RateTable): Source[] {
  const finishOf = (slug: string) => table.finishes.find(one => one.slug === slug)
  const source = (slug: string, packSlug: string, contents: Decimal, units: Decimal, shares: Share[]) => {
    const finish = finishOf(slug)
    if (!finish) return []
    const pack = packOf({ of: 'finish', slug, pack: packSlug }, table)
    const isLoose = pack === undefined || pack.kind === 'bulk' || pack.kind === 'weighed'
    const scoop = new Decimal(pack && isLoose ? pack.step : '0.001')
    return [
      {
        named: { of: 'finish', slug, pack: packSlug } as const,
        carried: { finish, contents, isLoose, scoop },
        shares: isLoose ? shares : inWholePacks(shares, units),
      },
    ]
  }
  return [
    ...got
      .filter(({ of, delivered }) => of === 'finish' && !delivered)
      .flatMap(one =>
        source(
          one.slug,
          one.pack,
          new Decimal(one.contents),
          new Decimal(one.units),
          one.shares.map(share => ({ jobId: share.quote_request_id, units: new Decimal(share.units) })),
        ),
      ),
    ...takes
      .filter(({ row }) => row.of === 'finish')
      .flatMap(({ row, contents, units, shares }) => source(row.slug, row.pack, contents, units, shares)),
    ...lines
      .filter(({ of, delivered }) => of === 'finish' && !delivered)
      .flatMap(line => source(line.slug, line.pack?.slug ?? '', line.contents, line.units, line.shares)),
  ]
}

function heavyWords(finish: Finish, table: RateTable, { language, country }: Reader): string[] {
  const t = translator(language, country)
  const { bulk } = unitSystem(table.units)
  return tooHeavy(table.carriers, finish.densityWet).map(({ carrier, weight, payload }) =>
    t('loads.too-heavy', {
      what: finish.name[language],
      carrier: carrier.name[language],
      weight: weightInWords(weight, table, { language, country }),
      payload: weightInWords(payload, table, { language, country }),
      most: quantityInWords(
        tripVolume([carrier], finish.densityWet)!.toDecimalPlaces(1, 1).toFixed(),
        bulk,
        language,
        1,
      ),
    }),
  )
}

function weightInWords(
  weight: Decimal,
  table: RateTable,
  { language }: Pick<Reader, 'language' | 'country'>,
): string {
  return `${figureInWords(weight.toFixed(0), language, 0)} ${unitSystem(table.units).weight}`
}
