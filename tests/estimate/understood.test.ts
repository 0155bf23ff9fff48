import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { siteExtras } from '../../src/estimate/starter/starter-extras.ts'
import { FORMAT, type JobUnderstood, upToDate } from '../../src/estimate/understood/format.ts'
import { recallJob } from '../../src/estimate/understood/recall.ts'
import { recordJob } from '../../src/estimate/understood/record.ts'
import { jobStored, understoodThen } from '../../src/estimate/understood/stored.ts'
import { anyBeds } from './generated.ts'
import { testTable, toldBed } from './jobs.ts'

const site = siteExtras('us').map(extra => ({ ...extra, lower: '1', upper: '2' }))
const table = testTable({ extras: [...testTable().extras, ...site] })
const metric = testTable({}, 'metric')

function jobOf(body: unknown, by = table) {
  const reading = readTold(body, by)
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
  return reading.job
}

function recalled(stored: JobUnderstood, by = table) {
  const job = recallJob(stored, by)
  if (!job.ok) throw new Error(JSON.stringify(job.faults))
  return job.job
}

/** As a column of the database gives it back: plain JSON, the keys of every object in another order. */
function throughStore(value: unknown): JobUnderstood {
  const turned = (one: unknown): unknown => {
    if (Array.isArray(one)) return one.map(turned)
    if (typeof one !== 'object' || one === null) return one
    const entries = Object.entries(one).map(([key, inner]) => [key, turned(inner)])
    return Object.fromEntries(entries.reverse())
  }
  return turned(JSON.parse(JSON.stringify(value))) as JobUnderstood
}

describe('what was understood of a job', () => {
  it('is stored in exact decimals with their units, names for what the rates say, and nothing that was not said', () => {
    const bed = toldBed({
      sizes: { length: "12'6", width: '20-25 in' },
      measuredBy: 'eye',
      lying: 'fair',
      depth: '',
      cutOuts: '3 of about 2 ft',
      carry: '8 paces',
      slope: 'steep',
      gate: 'narrow',
      extras: ['edging'],
    })
    expect(recordJob(jobOf({ beds: [bed], postcode: '78702' }), 'us')).toEqual({
      format: FORMAT,
      beds: [
        {
          shape: 'rectangle',
          sizes: {
            length: { value: '12.5', unit: 'ft' },
            // 20 to 25 in: 22.5 in in the middle, and half the gap, 2.5 in, is two standard errors.
            width: { value: '1.875', unit: 'ft', spread: expect.stringMatching(/^0\.10416666/) },
          },
          cutOuts: [
            { shape: 'circle', count: 3, sizes: { diameter: { value: '2', unit: 'ft', about: true } } },
          ],
          count: 1,
          measuredBy: 'eye',
          planted: 'open',
          lying: 'fair',
          work: 'top-up',
          finish: 'shredded-wood',
          depth: null,
          noEdge: { value: '0', unit: 'ft' },
          carry: { value: '20', unit: 'ft' },
          stairs: 0,
          slope: 'steep',
          narrowGate: true,
          extras: ['edging'],
        },
      ],
      extras: [],
      postcode: '78702',
    })
  })

  it('gives back the very same job, whatever was told', () => {
    fc.assert(
      fc.property(anyBeds, fc.subarray(['edging', 'weeding', 'old-out']), (beds, extras) => {
        const job = jobOf({ beds, extras, postcode: '43004' })
        const again = recalled(throughStore(recordJob(job, 'us')))
        expect(again).toEqual(job)
        expect(again.beds.map(bed => Object.keys(bed.sizes))).toEqual(
          job.beds.map(bed => Object.keys(bed.sizes)),
        )
      }),
      { numRuns: 200 },
    )
  })

  it('gives the same range to the cent', () => {
    const sent = fc.sample(anyBeds, { numRuns: 12, seed: 7 })
    for (const beds of sent) {
      const job = jobOf({ beds, extras: ['weeding'] })
      const again = recalled(throughStore(recordJob(job, 'us')))
      expect(workOutBallpark(again, table, { narrower: false })).toEqual(
        workOutBallpark(job, table, { narrower: false }),
      )
    }
  })

  it('follows the rates in what these say: a layer, a usual depth, how sure a told depth is', () => {
    const beds = [toldBed({ lying: 'thin', depth: '' }), toldBed({ lying: '1', depth: '4' })]
    const stored = recordJob(jobOf({ beds }), 'us')
    const [wood, ...others] = table.finishes
    const changed = {
      ...table,
      lyingTold: '0.4',
      lying: { ...table.lying, thin: { m: '0.75', s: '0.2' } },
      finishes: [{ ...wood!, depth: { ...wood!.depth, usual: '3.5' } }, ...others],
    }
    const [thin, told] = recalled(stored, changed).beds
    expect([thin!.lying.m, thin!.lying.s, thin!.depth].map(Number)).toEqual([0.75, 0.2, 3.5])
    expect([told!.lying.m, told!.lying.s, told!.depth].map(Number)).toEqual([1, 0.4, 4])
  })

  it('keeps paces as long as they were', () => {
    const stored = recordJob(jobOf({ beds: [toldBed({ sizes: { length: '8 paces', width: '5' } })] }), 'us')
    const { length } = recalled(stored, { ...table, pace: '3' }).beds[0]!.sizes
    expect([Number(length!.value), length!.paced]).toEqual([20, true])
  })

  it('is turned into the units of the rates it is priced by', () => {
    const beds = [
      toldBed({ sizes: { length: '20 ft', width: '5 ft' }, lying: '2', depth: '3' }),
      toldBed({ shape: 'area', sizes: { area: '100 sq ft' } }),
      toldBed({ shape: 'volume', sizes: { volume: '2 cubic yards' } }),
    ]
    const [sides, area, volume] = recalled(recordJob(jobOf({ beds }), 'us'), metric).beds
    // NIST SP 811: 0.3048 m to the foot, so 20 ft are 6.096 m; 100 ft² are 9.290304 m²; 2 yd³ are 1.529109715968 m³.
    expect(sides!.sizes.length!.value.toString()).toBe('6.096')
    expect([sides!.lying.m, sides!.depth].map(String)).toEqual(['5.08', '7.62'])
    expect(area!.sizes.area!.value.toString()).toBe('9.290304')
    expect(volume!.sizes.volume!.value.toFixed(12)).toBe('1.529109715968')
  })

  it('has a fault where the rates have no such finish or extra, and the other beds are there', () => {
    const beds = [toldBed({ finish: 'stone' }), toldBed({ extras: ['edging'] }), toldBed()]
    const stored = recordJob(jobOf({ beds, extras: ['weeding'] }), 'us')
    const job = recallJob(stored, {
      ...table,
      finishes: table.finishes.filter(({ slug }) => slug !== 'stone'),
      extras: [],
    })
    expect(job.ok ? [] : job.faults.map(({ field, key }) => [field, key])).toEqual([
      ['extras.0', 'fault.no-extras'],
      ['beds.0.finish', 'fault.finish'],
      ['beds.1.extras.0', 'fault.no-extras'],
    ])
    expect(job.ok ? [] : job.readable.map(bed => bed?.finish.slug ?? null)).toEqual([
      null,
      null,
      'shredded-wood',
    ])
  })

  it('is refused when a newer version stored it', () => {
    const stored = recordJob(jobOf({ beds: [toldBed()] }), 'us')
    expect(() => upToDate({ ...stored, format: FORMAT + 1 })).toThrow(`format ${FORMAT + 1}`)
  })

  it('stands against what was typed: that is only shown', () => {
    const understood = recordJob(jobOf({ beds: [toldBed()] }), 'us')
    const told = { beds: [toldBed({ sizes: { length: 'a rod', width: '99' } })], extras: [], postcode: '' }
    const job = jobStored({ told, understood }, table)
    expect(job.ok && Object.values(job.job.beds[0]!.sizes).map(({ value }) => Number(value))).toEqual([20, 5])
  })

  it.each<[string, object, string[]]>([
    // Stored before what was understood was kept: it means what the reader of that time made of it.
    ['a range that falls', { sizes: { length: '12-6', width: '5' } }, ['9', '5']],
    ['inches after a width in feet', { sizes: { length: '12\' 6" and 1/2', width: '5' } }, ['6.5', '5']],
    ['a fraction of twenty', { sizes: { length: '20/5', width: '5' } }, ['4', '5']],
    ['a bare volume', { shape: 'volume', sizes: { volume: '50' } }, ['50']],
    [
      'an odd list',
      { shape: 'offsets', sizes: { spacing: '10', offsets: '12 14 18 in' } },
      ['10', '12', '14', '1.5'],
    ],
  ])('of old rows %s means what it did', (_what, bed, sizes) => {
    const told = { beds: [toldBed(bed)], extras: [], postcode: '' }
    const job = jobStored({ told, understood: null }, table)
    expect(job.ok && Object.values(job.job.beds[0]!.sizes).map(({ value }) => value.toFixed())).toEqual(sizes)
    expect(understoodThen(told, table)).toEqual(job.ok && recordJob(job.job, 'us'))
  })

  it('of old rows a cut-out of so much in diameter is in feet, as it was', () => {
    const told = { beds: [toldBed({ cutOuts: '3 in diameter' })], extras: [], postcode: '' }
    const [cutOut] = understoodThen(told, table)!.beds[0]!.cutOuts
    expect(cutOut!.sizes.diameter).toEqual({ value: '3', unit: 'ft' })
  })
})
