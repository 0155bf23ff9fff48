import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bedsByStop, rearranged, withCopies, withMoved } from '../../src/estimate/job/stops.ts'

const job = {
  stops: [
    { id: 1, name: 'Entrance 1' },
    { id: 2, name: 'Gate' },
    { id: 3, name: 'Entrance 2' },
  ],
  beds: [
    { name: 'a', stop: 0 },
    { name: 'b', stop: 0 },
    { name: 'c', stop: 1 },
    { name: 'd', stop: 2 },
  ],
}
const asItIs = <Bed>(bed: Bed) => bed
const namesOf = (of: typeof job) =>
  bedsByStop(of).map(({ stop, beds }) => `${stop.name}: ${beds.map(({ bed }) => bed.name).join(' ')}`)

describe('stops of a job', () => {
  it('are copied with their beds, under names that nobody has', () => {
    const copied = rearranged(job, withCopies(3, 0, 2), bed => ({ ...bed, name: `${bed.name}2` }))
    expect(namesOf(copied)).toEqual([
      'Entrance 1: a b',
      'Entrance 3: a2 b2',
      'Entrance 4: a2 b2',
      'Gate: c',
      'Entrance 2: d',
    ])
    expect(copied.stops.map(stop => stop.id)).toEqual([1, undefined, undefined, 2, 3])
    expect(rearranged(job, withCopies(3, 1, 2), asItIs).stops.map(({ name }) => name)).toEqual([
      'Entrance 1',
      'Gate',
      'Gate 2',
      'Gate 3',
      'Entrance 2',
    ])
  })

  it('move one place with their beds, and stay where there is none', () => {
    expect(namesOf(rearranged(job, withMoved(3, 2, -1), asItIs))).toEqual([
      'Entrance 1: a b',
      'Entrance 2: d',
      'Gate: c',
    ])
    expect(withMoved(3, 0, -1)).toEqual([0, 1, 2])
    expect(withMoved(3, 2, 1)).toEqual([0, 1, 2])
  })

  it('keep every bed at the stop that it was at, in whatever order', () => {
    const orders = fc.shuffledSubarray([0, 1, 2], { minLength: 3, maxLength: 3 })
    fc.assert(
      fc.property(orders, order => {
        const moved = rearranged(job, order, asItIs)
        expect([...namesOf(moved)].sort()).toEqual([...namesOf(job)].sort())
        const stops = moved.beds.map(({ stop }) => stop)
        expect(stops).toEqual([...stops].sort())
      }),
    )
  })
})
