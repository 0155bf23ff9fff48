import { describe, expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { methodOf } from '../../src/estimate/job/methods/all-methods.ts'
import { bedOf, jobOf, testTable, toldBed } from './jobs.ts'

const table = testTable({ step: '0.01' })
const both = (changes: Partial<BedTold>) => methodOf(3).errors(bedOf(changes), table).ownBoth!

describe('what the own errors of a bed and of its edge have in common, by hand', () => {
  it('are its sizes: 0.8 and 0.2 of the edge of 20 × 5 ft follow length and width', () => {
    // By eye 0.14² × ½ of a length is its own; an area follows each of both wholly.
    expect(both({ measuredBy: 'eye' })).toBeCloseTo((0.8 + 0.2) * 0.0098, 9)
    expect(both({ measuredBy: 'eye', planted: 'full' })).toBeCloseTo(0.0098, 9)
  })

  it('is both of a circle: its area goes by the square', () => {
    const circle = { shape: 'circle', sizes: { diameter: '9' }, measuredBy: 'eye' } as const
    expect(both(circle)).toBeCloseTo(2 * 0.0098, 9)
  })

  it('weighs as much as what is left of the area and of the edge', () => {
    // Half of 100 ft² cut out, and 25 of 50 ft without an edge: each moves twice as far.
    expect(both({ measuredBy: 'eye', cutOuts: '10 x 5 ft', noEdge: '25 ft' })).toBeCloseTo(4 * 0.0098, 9)
  })

  it('is nothing where there is no edge', () => {
    expect(both({ shape: 'area', sizes: { area: '90' }, measuredBy: 'eye' })).toBe(0)
    expect(both({ shape: 'volume', sizes: { volume: '50 cu ft' } })).toBe(0)
  })
})

const widthBy = (method: number, beds: BedTold[], extras: string[]) => {
  const { range } = workOutBallpark(jobOf(beds, table, extras), table, { method, narrower: false })
  return Number(range.high) - Number(range.low)
}

const strip = toldBed({ shape: 'strip', sizes: { length: '60', width: '2' }, measuredBy: 'eye' })

describe('the third method', () => {
  it('is narrower than the second where an edge is much of the price', () => {
    const [second, third] = [2, 3].map(method => widthBy(method, [strip], ['edging']))
    expect(third!).toBeLessThan(second! * 0.99)
  })

  it('is the second where nothing is priced by the edge', () => {
    const beds = [strip, toldBed({ planted: 'full', measuredBy: 'paces', finish: 'stone' })]
    expect(widthBy(3, beds, ['weeding'])).toBe(widthBy(2, beds, ['weeding']))
  })

  it('counts the volume of all beds of a finish, also where only some have an edge', () => {
    // The more there is without an edge, the less of the finish’s error is that of the one with an edge.
    const large = toldBed({ sizes: { length: '60', width: '20' }, measuredBy: 'eye' })
    const edged = { ...strip, extras: ['edging'] }
    expect(widthBy(3, [edged, large], [])).toBeLessThan(widthBy(2, [edged, large], []))
  })
})
