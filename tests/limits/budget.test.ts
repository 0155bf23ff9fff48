import { beforeEach, expect, test } from 'vitest'
import { Budget, LIMITS } from '../../src/limits/budget.ts'

const CAROL = '198.51.100.7'
const DAVE = '198.51.100.8'

let now: Temporal.Instant
const clock = () => now
beforeEach(() => {
  now = Temporal.Instant.from('2026-03-02T15:00:00Z')
})
const pass = (seconds: number) => {
  now = now.add({ seconds })
}

const limits = {
  network: { most: 10, perSecond: 2 },
  site: { most: 12, perSecond: 2 },
  all: { most: 15, perSecond: 3 },
  mostNetworks: 3,
}

test('who has spent it is told when there is enough again, and nothing is taken meanwhile', () => {
  const budget = new Budget(clock, limits)
  expect(budget.take(10, CAROL)).toBe(0)
  expect(budget.take(5, CAROL)).toBe(3)
  expect(budget.take(5, CAROL)).toBe(3)
  pass(3)
  expect(budget.take(5, CAROL)).toBe(0)
})

test('one network’s spending leaves another its own, as long as there is enough in all', () => {
  const budget = new Budget(clock, limits)
  expect(budget.take(10, CAROL)).toBe(0)
  expect(budget.take(5, DAVE)).toBe(0)
  // Five are left to Dave, but none to all of them: at three a second, five take two seconds.
  expect(budget.take(5, DAVE)).toBe(2)
})

test('a household shares one, over all its IPv6 addresses', () => {
  const budget = new Budget(clock, limits)
  expect(budget.take(10, '2001:db8:0:7::1')).toBe(0)
  expect(budget.take(1, '2001:db8:0:7:aaaa::2')).toBe(1)
  expect(budget.take(1, '2001:db8:0:8::1')).toBe(0)
})

test('whoever has many networks of IPv6 has little more than one of them', () => {
  const budget = new Budget(clock, limits)
  expect(budget.take(10, '2001:db8:7:1::1')).toBe(0)
  expect(budget.take(4, '2001:db8:7:2::1')).toBe(1)
  expect(budget.take(4, '2001:db8:8:2::1')).toBe(0)
})

test('what isn’t everybody’s matter is taken from one’s own network alone', () => {
  const budget = new Budget(clock, limits)
  expect(budget.take(10, CAROL)).toBe(0)
  expect(budget.take(5, DAVE)).toBe(0)
  // Nothing is left in all.
  expect(budget.take(2, DAVE)).toBe(1)
  expect(budget.takeOwn(5, DAVE)).toBe(0)
  expect(budget.takeOwn(5, DAVE)).toBe(3)
  pass(1)
  // The three that came back to all of them are there for others.
  expect(budget.take(3, '203.0.113.1')).toBe(0)
})

test('so many networks are remembered and no more; those that asked least lately go first', () => {
  const budget = new Budget(clock, { ...limits, all: { most: 1000, perSecond: 1 } })
  for (const address of [CAROL, DAVE, '203.0.113.1']) budget.take(10, address)
  expect(budget.take(1, CAROL)).toBe(1)
  budget.take(10, '203.0.113.2')
  expect(budget.networks).toBe(3)
  // Carol, who asked since, is remembered; Dave is forgotten.
  expect([budget.take(1, CAROL), budget.take(1, DAVE)]).toEqual([1, 0])
})

// Ten beds that follow the typing are charged less: tests/requests/workings.test.ts.
const TEN_BEDS = 8

test('who changes ten beds at every pause of a quarter of a second, for a quarter of an hour, never meets it', () => {
  const budget = new Budget(clock)
  const refused: number[] = []
  for (let change = 0; change < 15 * 60 * 4; change++) {
    if (budget.take(TEN_BEDS, CAROL) > 0) refused.push(change)
    now = now.add({ milliseconds: 250 })
  }
  expect(refused).toEqual([])
})

test('nor do twelve households behind one address, each with a change a second', () => {
  const budget = new Budget(clock)
  const refused: number[] = []
  for (let second = 0; second < 15 * 60; second++) {
    for (let household = 0; household < 12; household++)
      if (budget.take(TEN_BEDS, CAROL) > 0) refused.push(second)
    pass(1)
  }
  expect(refused).toEqual([])
})

test('all of strangers’ work together stays under half of a processor', () => {
  expect(LIMITS.all.perSecond).toBeLessThan(500)
})
