import fc from 'fast-check'
import { starterTable } from '../../../src/estimate/starter/starter.ts'
import type { Pack, PriceFrom } from '../../../src/estimate/table/pack.ts'
import type { Carrier, Finish, RateTable } from '../../../src/estimate/table/rate-table.ts'
import { Decimal } from '../../../src/lib/decimal.ts'
import { bag, bale, bulk, tableWith, weighed } from './made.ts'

const hundredths = (least: number, most: number) =>
  fc.integer({ min: least * 100, max: most * 100 }).map(number => (number / 100).toFixed(2))
const whole = (least: number, most: number) => fc.integer({ min: least, max: most }).map(String)

/** Up to four prices, from 0 on; mostly cheaper the more is bought, but nothing says that they must be. */
const prices: fc.Arbitrary<PriceFrom[]> = fc
  .tuple(
    hundredths(1, 60),
    fc.uniqueArray(fc.integer({ min: 2, max: 120 }), { maxLength: 3 }),
    fc.array(fc.integer({ min: 40, max: 110 }), { minLength: 3, maxLength: 3 }),
  )
  .map(([first, breaks, percents]) => [
    { from: '0', each: first },
    ...breaks
      .sort((a, b) => a - b)
      .map((from, index) => ({
        from: String(from),
        each: ((Number(first) * percents[index]!) / 100).toFixed(2),
      })),
  ])

const brought = fc.record({
  fee: hundredths(0, 120),
  freeFrom: fc.option(whole(2, 90), { nil: null }),
})

const offered = fc.oneof(
  fc.record({ collected: fc.constant(true), delivered: fc.constant(null) }),
  fc.record({ collected: fc.boolean(), delivered: brought }),
)

const bought = fc
  .record({ prices, offered, least: fc.oneof(fc.constant('0'), whole(1, 12)) })
  .map(({ offered: how, ...rest }) => ({ ...rest, ...how }))

// Half a yard or ton keeps whole cents only where a price is even, so a step of these is 1 or 2.
const steps = fc.constantFrom('1', '2')

export const anyPack: fc.Arbitrary<Pack> = fc.oneof(
  fc.tuple(bought, fc.constantFrom('1.5', '2', '3')).map(([how, holds]) => bag({ ...how, holds })),
  fc.tuple(bought, whole(15, 25)).map(([how, covers]) => bale({ ...how, covers })),
  fc.tuple(bought, steps).map(([how, step]) => bulk({ ...how, step })),
  fc.tuple(bought, whole(800, 3200), steps).map(([how, density, step]) => weighed({ ...how, density, step })),
)

/** Up to three ways, each pack with a slug of its own. */
export const anyPacks: fc.Arbitrary<Pack[]> = fc
  .array(anyPack, { minLength: 1, maxLength: 3 })
  .map(packs => packs.map((pack, index) => ({ ...pack, slug: `pack-${index}` })))

const carrier: fc.Arbitrary<Carrier> = fc
  .record({ volume: hundredths(1, 8), payload: fc.option(whole(500, 6000), { nil: null }) })
  .map(rest => ({ name: { en: 'truck', es: 'camión' }, ...rest }))

const pair = (least: number, most: number) =>
  fc.tuple(hundredths(least, most), hundredths(least, most)).map(([a, b]) => {
    const [lower, upper] = Number(a) <= Number(b) ? [a, b] : [b, a]
    return { lower, upper }
  })

/** What is generated of a part of the table, with all else of it as a new table has it. */
function withRest<Part extends 'costs' | 'labor'>(
  part: Part,
  generated: { [Key in keyof RateTable[Part]]?: fc.Arbitrary<RateTable[Part][Key]> },
): fc.Arbitrary<RateTable[Part]> {
  return fc
    .record(generated as Record<string, fc.Arbitrary<unknown>>)
    .map(given => ({ ...starterTable('us')[part], ...given }) as RateTable[Part])
}

/** What a job costs and how it is laid: carriers, trips, a wage, a truck, a tax on purchases. */
export const anyWork: fc.Arbitrary<Pick<RateTable, 'carriers' | 'people' | 'costs' | 'labor' | 'costPlus'>> =
  fc.record({
    people: fc.constantFrom<RateTable['people']>(
      [],
      [
        { name: 'Foreman', come: '1', wage: '31.25', burden: '0.3' },
        { name: 'Helper', come: '1.5', wage: '17.40', burden: null },
      ],
    ),
    carriers: fc.array(carrier, { maxLength: 2 }),
    costs: withRest('costs', {
      wage: hundredths(10, 60),
      burden: fc.constantFrom('0', '0.0765', '0.25'),
      overheadPerLaborHour: hundredths(0, 20),
      truckPerJob: hundredths(0, 40),
      truckPerTrip: hundredths(0, 30),
      truckBy: fc.constantFrom('day', 'hour', 'distance'),
      truckEach: fc.constantFrom('0', '0', '12.50'),
      overheadShare: fc.constantFrom('0', '0', '0.08'),
    }),
    labor: withRest('labor', {
      spread: pair(0, 3),
      carry: fc.constant({ free: '50', each: '50', adds: '0.15' }),
      stair: fc.constantFrom('0', '0.05'),
      planted: fc.constantFrom({ open: '1', half: '1', full: '1' }, { open: '1', half: '1.25', full: '1.6' }),
      trip: pair(0, 2),
      setUp: pair(0, 2),
      slope: fc.constant('1.2'),
      gate: fc.constant('1.5'),
      least: fc.constantFrom('0', '0', '6'),
      drive: fc.constantFrom('0', '0', '0.75'),
      driven: fc.constant('31'),
    }),
    costPlus: fc.constantFrom<RateTable['costPlus']>(
      { by: 'margin', share: '0.40' },
      { by: 'markup', share: '0.6' },
    ),
  })

const finish = fc.record({
  densityWet: fc.constantFrom(null, '1000', '3120'),
  pinned: fc.constantFrom(null, 'pack-0:collected', 'pack-0:delivered'),
})

/** How the finishes of a job ride, and whether loose material and bags are mixed. */
export const anyFetching: fc.Arbitrary<RateTable['fetching']> = fc.record({
  together: fc.constantFrom('all', 'apart', 'each'),
  mixed: fc.boolean(),
})

/** A table whose first finish is bought in generated ways and fetched by generated carriers. */
export const anyBuying: fc.Arbitrary<RateTable> = fc
  .tuple(anyPacks, anyWork, finish)
  .map(([packs, work, rest]) => tableWith(packs, work, offeredOnly(rest, packs)))

// The rate table refuses a pin that is none of the ways.
function offeredOnly(rest: Pick<Finish, 'pinned' | 'densityWet'>, packs: Pack[]) {
  const [first] = packs
  const known = {
    'pack-0:collected': first!.collected,
    'pack-0:delivered': first!.delivered !== null,
  }
  const pinned = rest.pinned as keyof typeof known | null
  return { ...rest, pinned: pinned && known[pinned] ? pinned : null }
}

/** Needs in yd³, many of them whole numbers of packs: exact, as the quotients of a job's are. */
export const anyNeed: fc.Arbitrary<Decimal> = fc.oneof(
  fc.integer({ min: 0, max: 4000 }).map(number => new Decimal(number).div(100)),
  fc.integer({ min: 0, max: 300 }).map(bags => new Decimal(bags * 2).div(27)),
  fc.integer({ min: 0, max: 60 }).map(number => new Decimal(number)),
)
