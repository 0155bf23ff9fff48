import { describe, expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { completeTable } from '../../src/estimate/table/complete-table.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { jobOf } from './jobs.ts'

// A body as versions were stored before packs, labor and tax; its figures are invented.
const stored = `{
  "units": "us", "currency": "USD",
  "finishes": [
    { "slug": "shredded-wood", "name": { "en": "Shredded wood", "es": "Madera triturada" },
      "depth": { "least": "2", "usual": "3", "greatest": "4" }, "hatch": "shreds", "swatch": "#7a5a3c",
      "rates": [{ "lower": "80", "upper": "100" }, { "lower": "60", "upper": "80" }],
      "soldBy": "volume", "materialCost": "30", "densityWet": "1000", "cautions": ["fire"] },
    { "slug": "stone", "name": { "en": "Stone", "es": "Piedra" },
      "depth": { "least": "2", "usual": "2", "greatest": "4" }, "hatch": "pebbles", "swatch": "#9a958a",
      "rates": [{ "lower": "150", "upper": "190" }, { "lower": "140", "upper": "180" }],
      "soldBy": "weight", "materialCost": "50", "densityWet": null, "cautions": [] }
  ],
  "extras": [
    { "slug": "edging", "name": { "en": "Edging", "es": "Borde" }, "per": "edge", "lower": "0.50", "upper": "0.90",
      "crewHours": "0.02", "cautions": ["digging"] },
    { "slug": "weeding", "name": { "en": "Weeding", "es": "Desyerbe" }, "per": "area", "lower": "0.10", "upper": "0.30",
      "crewHours": "0.002", "cautions": [] }
  ],
  "minimumCharge": "75", "tiers": ["8"],
  "travel": [{ "postcodes": ["43*"], "charge": "25" }],
  "crewHoursPerVolume": "0.75",
  "measuring": { "tape": { "sigma": "0", "rho": "0" }, "paces": { "sigma": "0.08", "rho": "0.8" },
    "eye": { "sigma": "0.14", "rho": "0.5" } },
  "pace": "2.5",
  "lying": { "bare": { "m": "0", "s": "0" }, "thin": { "m": "0.5", "s": "0.125" }, "fair": { "m": "1", "s": "0.25" },
    "thick": { "m": "2", "s": "0.25" }, "unsure": { "m": "1", "s": "0.5" } },
  "lyingTold": "0.25", "lyingMeasured": "0.1",
  "planted": { "open": "0", "half": "0.15", "full": "0.30" },
  "thinnestTopUp": "1", "allowance": "0.05", "promise": "0.80", "step": "0.01",
  "costs": { "crewHour": "40" },
  "cautions": [{ "code": "digging", "source": "a source" }]
}`

const table = completeTable(JSON.parse(stored) as RateTable)
// 4 yd³ of wood, and 1 of stone told as a volume.
const beds: Partial<BedTold>[] = [
  { sizes: { length: '36', width: '12' }, depth: '3' },
  { shape: 'volume', sizes: { volume: '1 yd' }, finish: 'stone', planted: 'half' },
]

describe('a rate table stored before there were packs, labor and tax', () => {
  it('is one that the rate table takes, and is the same when it is completed again', () => {
    const checked = rateTableSchema.safeParse(table)
    expect(checked.error?.issues).toBeUndefined()
    expect(completeTable(table)).toEqual(table)
  })

  it('gives the prices, the hours and the cost that it gave', () => {
    const price = workOutPrice(jobOf(beds, table, ['edging', 'weeding'], '43001'), table)
    // 4 × 90, 170, 96 ft at .70, 432 and 108 ft² at .20 (a told volume's area is what it covers at 3 in), and travel.
    expect(price.lines.map(({ kind, slug, amount }) => [kind, slug, amount])).toEqual([
      ['finish', 'shredded-wood', '360.00'],
      ['finish', 'stone', '170.00'],
      ['extra', 'edging', '67.20'],
      ['extra', 'weeding', '108.00'],
      ['travel', null, '25.00'],
    ])
    expect([price.total, price.net, price.tax]).toEqual(['730.20', '730.20', null])
    // 5 yd³ at .75, 96 × .02, 540 × .002.
    expect(price.laborHours).toEqual([
      { task: 'spread', hours: '3.75' },
      { task: 'edging', hours: '1.92' },
      { task: 'weeding', hours: '1.08' },
    ])
    expect(price.laborHoursTotal).toBe('6.75')
    // 4.2 yd³ at 30 and 1.05 at 50, and 6.75 h at 40: 126 + 52.50 + 270. (730.20 − 448.50) ÷ 730.20.
    expect([price.cost, price.margin]).toEqual(['448.50', '0.3858'])
    expect(price.toOrder.map(({ amount }) => amount.value)).toEqual(['4.2000', '1.0500'])
  })

  it('gives the range that it gave', () => {
    // By a tape that never errs only the rates vary. Of 1,024 scenarios evenly spread number 102 and number 921 stand
    // at 102.5 and 921.5 of 1,024: 4 × (80 + 20 × .10009765625) and 4 × (80 + 20 × .89990234375).
    const { range, method } = workOutBallpark(jobOf([beds[0]!], table), table, { method: 1 })
    expect([method, range]).toEqual([1, { low: '328.01', likely: '360.00', high: '391.99', currency: 'USD' }])
  })

  it('prices as a larger job where that costs less', () => {
    // 7 yd³ at 90 are 630; as 8 yd³ at 70 they are 560.
    const price = workOutPrice(jobOf([{ shape: 'volume', sizes: { volume: '7 yd' } }], table), table)
    expect(price.total).toBe('560.00')
  })

  it('offers its finishes as it did', () => {
    for (const finish of table.finishes)
      expect(finish).toMatchObject({ offered: true, soldOut: false, substitutes: [] })
  })

  it('leaves a table that has every section as it is', () => {
    const newer: RateTable = { ...table, labor: { ...table.labor, stair: '0.05' }, tax: null }
    expect(completeTable(newer)).toEqual(newer)
  })
})
