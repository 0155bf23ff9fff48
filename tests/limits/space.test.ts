import { expect, test } from 'vitest'
import { Space } from '../../src/limits/space.ts'

test('there is room for each network by itself and for all together, and as much is given as is left', () => {
  const space = new Space({ all: 100, network: 60 })
  expect(space.take(50, '192.0.2.1')).toBe(50)
  expect(space.take(50, '192.0.2.1')).toBe(10)
  expect(space.take(1, '192.0.2.1')).toBe(0)
  expect(space.take(60, '192.0.2.2')).toBe(40)
  expect(space.take(1, '192.0.2.3')).toBe(0)
  space.giveBack(40, '192.0.2.2')
  expect(space.take(60, '192.0.2.3')).toBe(40)
  space.giveBack(50, '192.0.2.1')
  space.giveBack(10, '192.0.2.1')
  space.giveBack(40, '192.0.2.3')
  expect(space.taken).toBe(0)
  expect(space.take(60, '192.0.2.1')).toBe(60)
})

test('the addresses of one network of IPv6 share its room', () => {
  const space = new Space({ all: 100, network: 10 })
  expect(space.take(10, '2001:db8::1')).toBe(10)
  expect(space.take(10, '2001:db8::2')).toBe(0)
  expect(space.take(10, '2001:db8:0:1::2')).toBe(10)
})
