import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { BedTold, LayerTold } from '../../src/estimate/job/bed.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { Finish, RateTable } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { FORMAT } from '../../src/estimate/understood/format.ts'
import { recallJob } from '../../src/estimate/understood/recall.ts'
import { recordJob } from '../../src/estimate/understood/record.ts'
import { understoodThen } from '../../src/estimate/understood/stored.ts'
import { worksheetOf } from '../../src/estimate/worksheet/worksheet.ts'
import { openTable } from '../../src/requests/open-table.ts'
import { costTable } from './cost-priced.ts'
import { anyBeds } from './generated.ts'
import { jobOf, testTable, toldBed } from './jobs.ts'
import { bag, extraOf, flat, roll } from './packs/made.ts'

const fabric = extraOf({
  slug: 'fabric',
  name: { en: 'Fabric', es: 'Malla' },
  per: 'area',
  lower: '0.40',
  upper: '0.60',
  offered: false,
  laborHours: { lower: '0.004', upper: '0.004' },
  packs: [roll({ width: '4', length: '50', overlap: '0.5', strips: true, prices: flat('30') })],
})

/** Stone that usually lies on fabric on 2 in of compost, which comes in bags of 1 ft³ at $5. */
function withLayers(stone: Partial<Finish> = {}): RateTable {
  const table = testTable()
  return {
    ...table,
    extras: [...table.extras, fabric],
    finishes: table.finishes.map(one => {
      if (one.slug === 'compost') return { ...one, packs: [bag({ holds: '1', prices: flat('5') })] }
      if (one.slug !== 'stone') return one
      const layers = [
        { slug: 'fabric', depth: null },
        { slug: 'compost', depth: '2' },
      ]
      return { ...one, layers, ...stone }
    }),
  }
}

const table = withLayers()
const FABRIC_ON_COMPOST: LayerTold[] = [
  { what: 'fabric', depth: '' },
  { what: 'compost', depth: '2 in' },
]
const onStone = (rest: Partial<BedTold> = {}): Partial<BedTold> => ({ finish: 'stone', depth: '3', ...rest })
const layersOf = (bed: Partial<BedTold>, by: RateTable = table) =>
  jobOf([bed], by).beds[0]!.layers.map(layer =>
    'finish' in layer ? `${layer.finish.slug} ${layer.depth}` : layer.extra.slug,
  )

describe('stone on fabric on compost, 20 × 5 ft, is one price', () => {
  const job = jobOf([onStone({ lying: 'fair' })], table)
  const price = workOutPrice(job, table)

  // 100 ft² × 3 in ÷ 12 = 25 ft³ = 0.9259 yd³ × $170; 100 × 2 ÷ 12 = 16.67 ft³ = 0.6173 yd³ × $82.50; 100 ft² × $0.50.
  it('of three lines, each rounded to the cent', () => {
    expect(price.lines.map(({ slug, amount }) => [slug, amount])).toEqual([
      ['compost', '50.93'],
      ['stone', '157.41'],
      ['fabric', '50.00'],
    ])
    expect(price.total).toBe('258.34')
  })

  // With 5 % more, 17.5 ft³ are 18 bags. Over 5 ft lie 1 + (5 − 4) ÷ 3.5 strips, so 2 × 20 ft of a roll of 50 ft.
  it('bought together: 18 bags, and one roll by strips', () => {
    const compost = price.shopping.finishes.find(({ finish }) => finish.slug === 'compost')!
    expect(compost.buying!.taken.parts[0]!.units.toFixed()).toBe('18')
    expect(price.shopping.extras[0]!.buying.taken.parts[0]!.units.toFixed()).toBe('1')
  })

  // 0.75 h for each of 1.5432 yd³ are 1.1574 h; 100 ft² × 0.004 h = 0.4 h.
  it('with the labor hours of all of them', () => {
    expect(price.laborHours).toEqual([
      { task: 'spread', hours: '1.16' },
      { task: 'fabric', hours: '0.40' },
    ])
  })

  it('told step by step', () => {
    expect(worksheetOf(job, table).beds[0]).toEqual([
      'Area: 20 ft × 5 ft = 100 ft²',
      'Depth to add: the full 3 in, because it lies on other layers',
      'Volume in place: 100 ft² × 3 in ÷ 12 = 25 ft³',
      'Compost beneath: 100 ft² × 2 in ÷ 12 = 16.67 ft³',
      'Fabric beneath: over all of it, 100 ft²',
      'Edge: 50 ft',
    ])
  })

  it('with the fabric among what the range holds, and all of the volume', () => {
    const { beneath, inPlace, beds } = workOutBallpark(job, table)
    expect(beneath).toEqual(['fabric'])
    // 25 + 16.67 ft³.
    expect(Number(inPlace.value)).toBeCloseTo(41.667, 2)
    expect(beds[0]!.inPlace).toEqual(inPlace)
  })
})

describe('what lies beneath', () => {
  it('is what usually does where nothing was said, and what the staff name where they do', () => {
    expect(layersOf(onStone())).toEqual(['fabric', 'compost 2'])
    expect(layersOf(onStone({ layers: [] }))).toEqual([])
    expect(layersOf(onStone({ layers: [{ what: 'bark-nuggets', depth: '' }] }))).toEqual(['bark-nuggets 3'])
    expect(layersOf({ layers: FABRIC_ON_COMPOST })).toEqual(['fabric', 'compost 2'])
  })

  it('may be left out by homeowners only where the owner lets them', () => {
    const none = onStone({ layers: 'none' })
    expect(layersOf(none, openTable(table))).toEqual(['fabric', 'compost 2'])
    expect(layersOf(none, openTable(withLayers({ layersOptional: true })))).toEqual([])
    const own = readTold({ beds: [toldBed(onStone({ layers: FABRIC_ON_COMPOST }))] }, openTable(table))
    expect(own.ok ? [] : own.faults.map(({ field, key }) => [field, key])).toEqual([
      ['beds.0.layers', 'fault.layers'],
    ])
  })

  it.each<[string, unknown, string, string]>([
    ['is named', [{ what: 'gold', depth: '' }], 'layers.0.what', 'fault.layer'],
    ['is no work by the edge', [{ what: 'edging', depth: '' }], 'layers.0.what', 'fault.layer'],
    ['is picked before it has a depth', [{ what: '', depth: '2' }], 'layers.0.what', 'fault.layer'],
    ['has no depth as fabric', [{ what: 'fabric', depth: '2' }], 'layers.0.depth', 'fault.layer-deep'],
    ['is at most four', Array(5).fill({ what: 'compost', depth: '1' }), 'layers', 'fault.layers-too-many'],
    ['is a list', 7, 'layers', 'fault.layers'],
  ])('%s', (_rule, layers, field, key) => {
    const reading = readTold({ beds: [{ ...toldBed(onStone()), layers }] }, table)
    const faults = reading.ok ? [] : reading.faults.map(fault => [fault.field, fault.key])
    expect(faults).toEqual([[`beds.0.${field}`, key]])
  })

  it('of a bed told by its volume is as large as that volume at its depth', () => {
    // 27 ft³ at 3 in are 108 ft², and 2 in of that 18 ft³, plants or not.
    const bed = onStone({ shape: 'volume', sizes: { volume: '1 yd3' }, planted: 'full' })
    const { layers } = jobQuantities(jobOf([bed], table), table).beds[0]!
    expect(layers[0]!.inPlace.toFixed(6)).toBe('18.000000')
  })

  it('is stored with its depth and comes back, and a job from before has none', () => {
    const job = jobOf([onStone()], table)
    const stored = recordJob(job, 'us')
    expect([stored.format, stored.beds[0]!.layers]).toEqual([
      FORMAT,
      [{ extra: 'fabric' }, { finish: 'compost', depth: { value: '2', unit: 'in' } }],
    ])
    const again = recallJob(JSON.parse(JSON.stringify(stored)), table)
    expect(again).toEqual({ ok: true, job })
    const [{ layers: _, ...bed }] = stored.beds as [(typeof stored.beds)[number]]
    const older = recallJob({ ...stored, format: 1, beds: [bed] }, table)
    expect(older.ok && older.job.beds[0]!.layers).toEqual([])
    const told = { beds: [toldBed(onStone())], extras: [], postcode: '' }
    expect(understoodThen(told, table)!.beds[0]!.layers).toBeUndefined()
  })

  it('has a fault where the rates know it no more', () => {
    const stored = recordJob(jobOf([onStone()], table), 'us')
    const recalled = recallJob(stored, { ...table, extras: [] })
    expect(recalled.ok ? [] : recalled.faults.map(({ field, key }) => [field, key])).toEqual([
      ['beds.0.layers.0.what', 'fault.layer'],
    ])
  })
})

test.each<[string, Finish['layers']]>([
  ['“stone” can’t lie beneath itself', [{ slug: 'stone', depth: '2' }]],
  ['there is no finish, and no extra charged by area, “edging”', [{ slug: 'edging', depth: null }]],
  ['“fabric” is an extra, so it has no depth', [{ slug: 'fabric', depth: '1' }]],
  [
    '“compost” is already listed above',
    [
      { slug: 'compost', depth: '1' },
      { slug: 'compost', depth: '2' },
    ],
  ],
])('a table is refused where %s', (message, layers) => {
  const { error } = rateTableSchema.safeParse(withLayers({ layers }))
  expect(error?.issues.map(issue => issue.message)).toContain(message)
})

const anyLayers = fc.array(
  fc.record({
    what: fc.constantFrom('compost', 'bark-nuggets', 'stone', 'shredded-wood'),
    depth: fc.constantFrom('1', '2', '3.5'),
  }),
  { maxLength: 3 },
)

test.each([
  ['at rates', table],
  ['by cost', costTable({ extras: [...testTable().extras, fabric] })],
])('one more layer never makes a job cheaper, %s', (_how, by) => {
  fc.assert(
    fc.property(anyBeds, anyLayers, fc.boolean(), (beds, layers, sheet) => {
      const more = [...layers, sheet ? { what: 'fabric', depth: '' } : { what: 'compost', depth: '1' }]
      const [first, ...rest] = beds as [BedTold, ...BedTold[]]
      const [less, all] = [layers, more].map(each => {
        const job = jobOf([{ ...first, layers: each }, ...rest.map(bed => ({ ...bed, layers: [] }))], by)
        const { low, high } = spreadsOf(job, jobQuantities(job, by), by)()
        return { total: Number(workOutPrice(job, by).total), low, high }
      })
      expect(all!.total).toBeGreaterThanOrEqual(less!.total)
      expect(all!.low).toBeGreaterThanOrEqual(less!.low)
      expect(all!.high).toBeGreaterThanOrEqual(less!.high)
    }),
    { numRuns: 25 },
  )
})
