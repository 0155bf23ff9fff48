import fc from 'fast-check'
import { expect, test } from 'vitest'
import { Bucket, type Limits } from '../../src/limits/bucket.ts'

const anyLimits = fc.record({
  most: fc.integer({ min: 1, max: 1000 }),
  perSecond: fc.integer({ min: 1, max: 500 }),
})
const anyAmount = fc.double({ min: 0.1, max: 1200, noNaN: true })
/** What is asked for, each so many milliseconds after the last; below zero the clock was put back. */
const asked = (least: number) =>
  fc.array(fc.tuple(fc.integer({ min: least, max: 5000 }), anyAmount), { maxLength: 60 })

interface Taken {
  at: number
  amount: number
}

/** Takes each amount that is there when it is asked for, and gives those. */
function takeAll(limits: Limits, asks: [wait: number, amount: number][]): Taken[] {
  const bucket = new Bucket(limits, 0)
  let at = 0
  return asks.flatMap(([wait, amount]) => {
    at += wait
    if (bucket.secondsUntil(amount, at) > 0) return []
    bucket.take(amount, at)
    return [{ at, amount: Math.min(amount, limits.most) }]
  })
}

test('in no stretch of time is more taken than the most at once and what came back meanwhile', () => {
  fc.assert(
    fc.property(anyLimits, asked(0), (limits, asks) => {
      const all = takeAll(limits, asks)
      for (const [from, first] of all.entries()) {
        let sum = 0
        for (const { at, amount } of all.slice(from)) {
          sum += amount
          const there = limits.most + ((at - first.at) / 1000) * limits.perSecond
          expect(sum).toBeLessThanOrEqual(there + 0.001)
        }
      }
    }),
  )
})

test('what is refused is there after the seconds that were told', () => {
  fc.assert(
    fc.property(anyLimits, asked(0), anyAmount, (limits, asks, amount) => {
      const bucket = new Bucket(limits, 0)
      let at = 0
      for (const [wait, each] of asks) {
        at += wait
        if (bucket.secondsUntil(each, at) === 0) bucket.take(each, at)
      }
      const seconds = bucket.secondsUntil(amount, at)
      if (seconds > 0.01) expect(bucket.secondsUntil(amount, at + seconds * 990)).toBeGreaterThan(0)
      expect(bucket.secondsUntil(amount, at + Math.ceil(seconds) * 1000)).toBe(0)
    }),
  )
})

test('a clock that is put back and forth gives nobody more than it would going on', () => {
  fc.assert(
    fc.property(anyLimits, asked(-5000), (limits, asks) => {
      const forward = asks.reduce((sum, [wait]) => sum + Math.max(0, wait), 0)
      const sum = takeAll(limits, asks).reduce((total, { amount }) => total + amount, 0)
      expect(sum).toBeLessThanOrEqual(limits.most + (forward / 1000) * limits.perSecond + 0.001)
    }),
  )
})

test('more than it holds can be had too, when it is full, and empties it', () => {
  const bucket = new Bucket({ most: 10, perSecond: 2 }, 0)
  expect(bucket.secondsUntil(25, 0)).toBe(0)
  bucket.take(25, 0)
  expect(bucket.secondsUntil(1, 0)).toBe(0.5)
  expect(bucket.secondsUntil(25, 0)).toBe(5)
})
