import { describe, expect, it } from 'vitest'
import { loadWeights, tooHeavy, tripVolume } from '../../../src/estimate/packs/loads.ts'
import { tripsOver } from '../../../src/estimate/packs/trips.ts'
import type { Carrier } from '../../../src/estimate/table/rate-table.ts'
import { countTrips } from './count-trips.ts'
import { bulk, buying, tableWith } from './made.ts'

const carrier = (volume: string, payload: string | null, en = 'truck'): Carrier => ({
  name: { en, es: en },
  volume,
  payload,
})
const trips = (volume: string, carriers: Carrier[], density: string | null) =>
  countTrips(tripsOver([{ densityWet: density }], { ...tableWith([]), carriers }), [
    { loose: Number(volume), packed: 0 },
  ])

// Volumes, payloads and weights here are invented.
describe('a load', () => {
  it('is level, or what the payload allows at the wet weight, whichever comes first', () => {
    expect(tripVolume([carrier('2.5', '1800')], '600')!.toNumber()).toBe(2.5)
    expect(tripVolume([carrier('2.5', '1800')], '1000')!.toNumber()).toBe(1.8)
    expect(tripVolume([carrier('2.5', '1800')], null)!.toNumber()).toBe(2.5)
    expect(tripVolume([carrier('2.5', null)], '3000')!.toNumber()).toBe(2.5)
  })

  it('counts the trailer behind the truck, each by its own limit', () => {
    const both = [carrier('2.5', '1500'), carrier('4', '6000', 'trailer')]
    // 1,500 ÷ 1,000 and level.
    expect(tripVolume(both, '1000')!.toNumber()).toBe(5.5)
    expect(tripVolume([], '1000')).toBeNull()
  })

  it.each([
    ['0', 0],
    ['0.01', 1],
    ['1.8', 1],
    ['1.8000001', 2],
    ['3.6', 2],
    ['9', 5],
  ])('%s yd³ by 1.8 are %s trips', (volume, count) => {
    expect(trips(volume, [carrier('2.5', '1800')], '1000')).toBe(count)
  })

  it('is one trip of any size where the owner hasn’t said what a trip carries', () => {
    expect(trips('40', [], '1000')).toBe(1)
  })

  it('counts what is bought, not what is needed', () => {
    // 2.1 needed, 2.5 bought: two trips of 2.2.
    const table = tableWith([bulk()], { carriers: [carrier('2.2', null)] })
    expect(buying('2.1', table).taken.trips.toNumber()).toBe(2)
  })
})

describe('a level load that is too heavy', () => {
  it('is named with its weight and the payload', () => {
    const heavy = tooHeavy([carrier('2', '1500'), carrier('1', '1500', 'trailer')], '1200')
    expect(heavy.map(one => [one.carrier.name.en, one.weight.toNumber(), one.payload.toNumber()])).toEqual([
      ['truck', 2400, 1500],
    ])
  })

  it('is none where it weighs just what is allowed, or where either isn’t known', () => {
    expect(tooHeavy([carrier('2', '2000')], '1000')).toEqual([])
    expect(tooHeavy([carrier('2', null)], '3000')).toEqual([])
    expect(tooHeavy([carrier('2', '100')], null)).toEqual([])
  })
})

it('weighs materials by how much of a load they take', () => {
  const truck = carrier('2.5', '1800')
  for (const carriers of [[truck], [carrier('2.5', null)], [truck, carrier('1', '900')]]) {
    const weightOf = loadWeights(carriers)
    const perLight = weightOf('600').times(tripVolume(carriers, '600')!)
    for (const density of [null, '600', '1000', '3000'])
      expect(
        weightOf(density).times(tripVolume(carriers, density)!).minus(perLight).abs().toNumber(),
      ).toBeLessThan(1e-30)
  }
  expect(loadWeights([])('3000').eq(loadWeights([])(null))).toBe(true)
})
