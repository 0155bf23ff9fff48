import { describe, expect, it } from 'vitest'
import type { BedTold, Told } from '../../src/estimate/job/bed.ts'
import { jobStored, understoodThen } from '../../src/estimate/understood/stored.ts'
import { readMeasured } from '../../src/visits/read-measured.ts'
import { testTable, toldBed } from '../estimate/jobs.ts'

const table = testTable()

/** What the first reader took for something else, or took at all, unlike the one of today. */
const CHANGED: Partial<BedTold>[] = [
  { cutOuts: '36" x 20' },
  { cutOuts: '2 x 30 in' },
  { cutOuts: '12-6 x 5' },
  { noEdge: '12-6' },
  { lying: '2-1' },
  { depth: '4-3' },
  { depth: '20/5' },
  { carry: '100-50' },
]

const OPEN = { sizes: { length: '40', width: '30' } }

function stored(bed: Partial<BedTold>) {
  const told: Told = { beds: [toldBed({ ...OPEN, ...bed })], extras: [], postcode: '' }
  const understood = understoodThen(told, table)
  if (!understood) throw new Error('not read then')
  const job = jobStored({ told, understood }, table)
  if (!job.ok) throw new Error(JSON.stringify(job.faults))
  return { told, understood, meant: job.job.beds[0]! }
}

function measuredNow(before: Parameters<typeof readMeasured>[1], bed: Partial<BedTold>, by = table) {
  const measured: Told = { ...before.told, beds: [{ ...before.told.beds[0]!, toldBed: 0, ...bed }] }
  const reading = readMeasured(measured, before, by)
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
  return { bed: reading.job.beds[0]!, reading }
}

describe('of a bed that was understood before', () => {
  it.each(CHANGED)('what stands as it was typed means what it meant: %j', bed => {
    const { meant, ...before } = stored(bed)
    expect(measuredNow(before, {}).bed).toEqual(meant)
  })

  it.each(CHANGED)('and so it does when the sizes are measured anew: %j', bed => {
    const { meant, ...before } = stored(bed)
    const sizes = { length: '41', width: '30' }
    const { bed: now } = measuredNow(before, { measuredBy: 'tape', sizes })
    for (const name of ['cutOuts', 'noEdge', 'lying', 'depth', 'carry'] as const)
      expect(now[name]).toEqual(meant[name])
    expect(now.sizes.length!.value.toNumber()).toBe(41)
  })

  it('is what stands beside the box', () => {
    const { meant: _, ...before } = stored({ cutOuts: '36" x 20; 2 of 3 ft across', noEdge: '12-6' })
    const { echoes, instead } = measuredNow(before, {}).reading
    expect(echoes).toMatchObject({
      'beds.0.cutOuts': '= 3 ft × 1 ft 8 in; 2 × (⌀ 3 ft)',
      'beds.0.noEdge': '= 9 ft',
    })
    expect(instead).toEqual({})
  })

  it('what is typed anew is read by the reader of today', () => {
    const { meant: _, ...before } = stored({ cutOuts: '36" x 20', noEdge: '12-6' })
    const { bed } = measuredNow(before, { cutOuts: '4 x 3 ft' })
    expect(bed.cutOuts[0]!.sizes.width!.value.toNumber()).toBe(3)
    expect(bed.noEdge.toNumber()).toBe(9)
    expect(measuredNow(before, { noEdge: '12 ft 6' }).bed.noEdge.toNumber()).toBe(12.5)
  })

  it('cut-outs that no longer fit, and an edge longer than there is, are refused still', () => {
    const { meant: _, ...before } = stored({ cutOuts: '36" x 20', noEdge: '12-6' })
    const small = { sizes: { length: '2', width: '2' }, measuredBy: 'tape' }
    const measured: Told = { ...before.told, beds: [{ ...before.told.beds[0]!, toldBed: 0, ...small }] }
    const reading = readMeasured(measured, before, table)
    expect(reading.ok ? [] : reading.faults.map(({ key }) => key)).toEqual([
      'fault.cut-outs-large',
      'fault.no-edge',
    ])
  })

  it('stays so where its finish is no longer sold and another one is picked', () => {
    const { meant, ...before } = stored({ sizes: { length: '40', width: '12-6' }, cutOuts: '36" x 20' })
    const without = { ...table, finishes: table.finishes.filter(({ slug }) => slug !== 'shredded-wood') }
    const { bed } = measuredNow(before, { finish: 'compost' }, without)
    expect(bed.sizes).toEqual(meant.sizes)
    expect(bed.cutOuts).toEqual(meant.cutOuts)
  })

  it('holds for what was measured before, of a bed told and of one found on site', () => {
    const { meant, ...first } = stored({ cutOuts: '36" x 20', sizes: { length: '40', width: '12-6' } })
    const [bed] = first.told.beds as [BedTold]
    const measured = {
      ...first.told,
      beds: [bed, bed].map((one, at) => ({ ...one, toldBed: at ? null : 0 })),
    }
    const [understood] = first.understood.beds as [(typeof first.understood.beds)[0]]
    const before = {
      told: { ...first.told, beds: [toldBed()] },
      understood: null,
      measured,
      measured_understood: { ...first.understood, beds: [understood, understood] },
    }
    const reading = readMeasured(measured, before, table)
    expect(reading.ok && reading.job.beds).toEqual([meant, meant])
  })

  it('an earlier bed without layers gets none by being measured', () => {
    const beneath = {
      ...table,
      finishes: table.finishes.map(one =>
        one.slug === 'shredded-wood' ? { ...one, layers: [{ slug: 'compost', depth: '2' }] } : one,
      ),
    }
    const { meant: _, ...before } = stored({})
    expect(measuredNow(before, {}, beneath).bed.layers).toEqual([])
  })
})
