import { expect, test } from 'vitest'
import { Guesses } from '../../src/limits/guesses.ts'

let at = Temporal.Instant.from('2026-03-01T12:00:00Z')
const begin = () => new Guesses(() => at)
const later = (seconds: number) => {
  at = at.add({ seconds })
}
const tries = (guesses: Guesses, network: string, count: number) =>
  Array.from({ length: count }, () => guesses.allow(network)).filter(Boolean).length

test('a network tries thirty at once, and one more every twenty seconds', () => {
  const guesses = begin()
  expect(tries(guesses, 'one', 50)).toBe(30)
  later(19)
  expect(guesses.allow('one')).toBe(false)
  later(40)
  expect(tries(guesses, 'one', 5)).toBe(2)
})

test('one network doesn’t use up what another may try, but all together are held', () => {
  const guesses = begin()
  tries(guesses, 'one', 300)
  expect(tries(guesses, 'other', 5)).toBe(5)
  const many = begin()
  const allowed = Array.from({ length: 1000 }, (_, nth) => tries(many, `network ${nth}`, 1))
  expect(allowed.filter(one => one === 1)).toHaveLength(600)
})
