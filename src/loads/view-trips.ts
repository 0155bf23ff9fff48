import { tooHeavy, tripVolume } from '../estimate/packs/loads.ts'
import type { Carrier, Finish, RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { translator } from '../language/catalogue.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { quantityInWords } from '../language/quantity-in-words.ts'
import { Decimal } from '../lib/decimal.ts'
import { nameOfThing, packOf } from '../on-hand/pack-words.ts'
import type { Carried } from './carried.ts'
import type { DayLoad } from './find-load.ts'
import { packsInWords } from './packs-in-words.ts'
import { planTrips, type Trip } from './plan-trips.ts'
import { inWholePacks, type Share } from './share-out.ts'
import type { Reader } from './view-load.ts'

/** The trips of a day: what rides on what for which job, how full and how heavy it is, and what would be too heavy. */
export interface TripsView {
  trips: { words: string; carriers: CarrierView[] }[]
  /** Where weight makes for more trips than volume. */
  byVolume: string
  tooHeavy: string[]
  payloadUnknown: boolean
}

/** What rides on a truck or trailer on one trip. */
interface CarrierView {
  /** 'The pickup: 2 yd³, about 1,900 lb wet'; '' where all of the trip is on it, and its words say so. */
  words: string
  /** 'Holds 2.5 yd³, 3,000 lb.' */
  holds: string
  loads: { number: string; what: string }[]
  isOver: boolean
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
  const isByWeight = plan.byVolume < plan.trips.length
  const level = carried.filter(({ isLoose }) => isLoose || isByWeight)
  const finishes = [...new Set(level.map(({ finish }) => finish))]
  return {
    trips: plan.trips.map(({ carriers, ...size }, index) => ({
      words: sizeInWords(
        t('loads.trip', { nth: index + 1 }),
        carriers.length === 1 ? carriers : [],
        size,
        table,
        reader,
      ),
      carriers: carriers.map(({ carrier, loads, isOver, ...own }) => ({
        words: carriers.length === 1 ? '' : sizeInWords('', [{ carrier }], own, table, reader),
        holds: t('loads.holds', { most: holdsInWords(carrier, table, reader) }),
        isOver,
        loads: loads.map(({ jobId, what, units }) => {
          const { named } = sources[what]!
          const words = `${packsInWords(units, named, table, language)}, ${nameOfThing(named, table, language)}`
          return { number: numberOf(jobId), what: words }
        }),
      })),
    })),
    byVolume: isByWeight ? t('loads.by-volume', { trips: plan.byVolume }) : '',
    tooHeavy: finishes.flatMap(finish => heavyWords(finish, table, reader)),
    payloadUnknown: table.carriers.some(({ payload }) => payload === null),
  }
}

/** 'Trip 1, the pickup: 2 yd³, about 1,900 lb wet'. */
function sizeInWords(
  trip: string,
  on: { carrier: Carrier }[],
  { volume, weight }: Pick<Trip, 'volume' | 'weight'>,
  table: RateTable,
  reader: Reader,
): string {
  const { language, country } = reader
  const t = translator(language, country)
  const what = [trip, ...on.map(({ carrier }) => carrier.name[language])].filter(Boolean).join(', ')
  const params = {
    what: what.charAt(0).toUpperCase() + what.slice(1),
    volume: quantityInWords(volume.toFixed(4), unitSystem(table.units).bulk, language, 1),
  }
  if (!weight) return t('loads.size-unweighed', params)
  return t('loads.size', { ...params, weight: weightInWords(weight, table, reader) })
}

/** '2.5 cubic yards, 1,500 lb'. */
function holdsInWords({ volume, payload }: Carrier, table: RateTable, reader: Reader): string {
  const holds = quantityInWords(volume, unitSystem(table.units).bulk, reader.language, 1)
  return payload === null ? holds : `${holds}, ${weightInWords(new Decimal(payload), table, reader)}`
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
