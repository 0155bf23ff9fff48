import { describe, expect, it } from 'vitest'
import { bedQuantities } from '../../src/estimate/job/quantities.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import type { Extra, RateTable } from '../../src/estimate/table/rate-table.ts'
import { bedOf, jobOf, testTable, toldBed } from './jobs.ts'

const [edging, weeding] = testTable().extras as [Extra, Extra]
const table: RateTable = testTable({
  extras: [
    edging,
    { ...weeding, slug: 'light-weeds', group: 'weeds' },
    { ...weeding, slug: 'heavy-weeds', group: 'weeds' },
    { ...weeding, slug: 'clear-out', per: 'lying' },
  ],
})

function faultsWith(bed: Record<string, unknown>, extras: unknown = []) {
  const reading = readTold({ beds: [{ ...toldBed(), ...bed }], extras }, table)
  return reading.ok ? [] : reading.faults.map(({ field, key }) => `${field} ${key}`)
}

const read = (bed: Record<string, unknown>, extras: string[] = []) =>
  jobOf([bed as object], table, extras).beds[0]!

describe('what may be said of a bed besides', () => {
  it('is left out, empty or null: a top-up with its whole edge, at the heap, with nothing of its own', () => {
    const plain = read({})
    expect(plain).toMatchObject({
      work: 'top-up',
      cutOuts: [],
      stairs: 0,
      slope: 'level',
      narrowGate: false,
      extras: [],
    })
    expect([plain.noEdge, plain.carry].map(Number)).toEqual([0, 0])
    for (const nothing of ['', null]) {
      const said = {
        work: nothing,
        cutOuts: nothing,
        noEdge: nothing,
        carry: nothing,
        stairs: nothing,
        slope: nothing,
        gate: nothing,
      }
      expect(read({ ...said, extras: nothing })).toEqual(plain)
    }
  })

  it('is understood as typed or as sent', () => {
    const said = {
      slope: 'steep',
      gate: 'narrow',
      work: 'new',
      noEdge: '12 ft 6 in',
      carry: '40 paces',
      stairs: ' 7 ',
      extras: ['edging'],
    }
    const bed = read(said)
    expect(bed).toMatchObject({ work: 'new', stairs: 7, slope: 'steep', narrowGate: true })
    expect([bed.noEdge, bed.carry].map(Number)).toEqual([12.5, 100])
    expect(bed.extras.map(extra => extra.slug)).toEqual(['edging'])
    const sent = read({ noEdge: 20, carry: 0, stairs: 200, extras: 'edging' })
    expect([Number(sent.noEdge), Number(sent.carry), sent.stairs]).toEqual([20, 0, 200])
  })

  it('echoes the lengths', () => {
    const reading = readTold({ beds: [{ ...toldBed(), noEdge: '4 yd', carry: 'about 90' }] }, table)
    expect(reading.echoes).toMatchObject({ 'beds.0.noEdge': '= 12 ft', 'beds.0.carry': '≈ 90 ft' })
  })

  it.each<[Record<string, unknown>, string]>([
    [{ work: 'old' }, 'work fault.work'],
    [{ work: [] }, 'work fault.work'],
    [{ noEdge: 'the wall' }, 'noEdge fault.length-unreadable'],
    [{ noEdge: '5x4' }, 'noEdge fault.length-unreadable'],
    [{ noEdge: {} }, 'noEdge fault.length-unreadable'],
    [{ noEdge: '-2' }, 'noEdge fault.length-not-positive'],
    [{ noEdge: '50.01' }, 'noEdge fault.no-edge'],
    [{ shape: 'strip', noEdge: '31' }, 'noEdge fault.no-edge'],
    [{ shape: 'area', sizes: { area: '50' }, noEdge: '1' }, 'noEdge fault.no-edge-unknown'],
    [{ shape: 'volume', sizes: { volume: '50 cu ft' }, noEdge: '1' }, 'noEdge fault.no-edge-unknown'],
    [{ carry: 'far' }, 'carry fault.length-unreadable'],
    [{ stairs: '201' }, 'stairs fault.stairs'],
    [{ stairs: '1.5' }, 'stairs fault.stairs'],
    [{ stairs: -1 }, 'stairs fault.stairs'],
    [{ stairs: true }, 'stairs fault.stairs'],
    [{ slope: 'hilly' }, 'slope fault.slope'],
    [{ gate: '1 m' }, 'gate fault.gate'],
    [{ extras: ['edging', 'gold'] }, 'extras.1 fault.extra'],
    [{ extras: {} }, 'extras.0 fault.extra'],
    [{ extras: Array(101).fill('edging') }, 'extras fault.too-many-extras'],
  ])('%j is refused beside the field', (bed, fault) => {
    expect(faultsWith(bed)).toEqual([`beds.0.${fault}`])
  })
})

it('an edge that is left out is not cut, and all of it may be', () => {
  expect(Number(bedQuantities(bedOf({ noEdge: '20' }), table).edge)).toBe(30)
  expect(Number(bedQuantities(bedOf({ noEdge: '50' }), table).edge)).toBe(0)
})

it('a new bed gets the whole depth, whatever lies there', () => {
  const inPlace = (work: string) => Number(bedQuantities(bedOf({ work, lying: 'thick' }), table).inPlace)
  expect(inPlace('new')).toBe(25)
  expect(inPlace('top-up')).toBeCloseTo(100 / 12, 12)
})

describe('of one group of extras', () => {
  it('a bed has one at most', () => {
    expect(faultsWith({ extras: ['light-weeds', 'edging', 'heavy-weeds'] })).toEqual([
      'beds.0.extras.2 fault.extra-group',
    ])
    expect(faultsWith({ extras: ['light-weeds', 'light-weeds'] })).toEqual([])
  })

  it('the whole job has one at most', () => {
    expect(faultsWith({}, ['light-weeds', 'heavy-weeds'])).toEqual(['extras.1 fault.extra-group'])
  })

  it('a bed can’t have another one than the whole job', () => {
    expect(faultsWith({ extras: ['edging', 'heavy-weeds'] }, ['light-weeds'])).toEqual([
      'beds.0.extras.1 fault.extra-job-group',
    ])
    expect(faultsWith({ extras: ['heavy-weeds'] }, ['heavy-weeds'])).toEqual([])
    expect(faultsWith({ extras: ['heavy-weeds'] }, ['edging'])).toEqual([])
  })

  it('two beds may differ', () => {
    const job = jobOf([{ extras: ['light-weeds'] }, { extras: ['heavy-weeds'] }], table)
    expect(job.beds.map(bed => bed.extras[0]!.slug)).toEqual(['light-weeds', 'heavy-weeds'])
  })
})

describe('where the old material is taken out nothing stays to be topped up', () => {
  it('in the bed that asks for it', () => {
    const job = jobOf([{ extras: ['clear-out'], lying: 'thick' }, { lying: 'thick' }], table)
    expect(job.beds.map(bed => bed.work)).toEqual(['new', 'top-up'])
    expect(job.beds.map(bed => Number(bedQuantities(bed, table).inPlace.toFixed(4)))).toEqual([25, 8.3333])
  })

  it('in every bed, where the whole job asks for it, even one told to be a top-up', () => {
    const job = jobOf([{ work: 'top-up' }, {}], table, ['clear-out'])
    expect(job.beds.map(bed => bed.work)).toEqual(['new', 'new'])
  })
})
