import fc from 'fast-check'
import { expect, test } from 'vitest'
import { networkOf, siteOf } from '../../src/limits/network.ts'

const anyGroups = fc.array(fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 0xffff })), {
  minLength: 8,
  maxLength: 8,
})
const inFull = (groups: number[]) => groups.map(group => group.toString(16).padStart(4, '0')).join(':')
/** As browsers write it: the longest run of noughts left out. */
const short = (groups: number[]) => new URL(`http://[${inFull(groups)}]`).hostname.slice(1, -1)

test('however an IPv6 address is written, it is of the same network', () => {
  fc.assert(
    fc.property(anyGroups, groups => {
      expect(networkOf(short(groups))).toBe(networkOf(inFull(groups)))
      expect(networkOf(inFull(groups).toUpperCase())).toBe(networkOf(inFull(groups)))
    }),
  )
})

test('of IPv6 the first 64 bits are the network, and nothing else is', () => {
  fc.assert(
    fc.property(anyGroups, anyGroups, (one, other) => {
      fc.pre(!short(one).startsWith('::ffff:') && !short(other).startsWith('::ffff:'))
      const neighbour = [...one.slice(0, 4), ...other.slice(4)]
      expect(networkOf(short(neighbour))).toBe(networkOf(short(one)))
      const same = one.slice(0, 4).join() === other.slice(0, 4).join()
      expect(networkOf(short(one)) === networkOf(short(other))).toBe(same)
    }),
  )
})

test('an IPv4 address is a network by itself, also where it is written as IPv6', () => {
  expect(networkOf('198.51.100.7')).not.toBe(networkOf('198.51.100.8'))
  expect(networkOf('::ffff:198.51.100.7')).toBe(networkOf('198.51.100.7'))
  expect(networkOf('2001:db8::198.51.100.7')).toBe(networkOf('2001:db8::1'))
  expect(networkOf('fe80::1%eth0')).toBe(networkOf('fe80::2'))
})

test('of IPv6 the first 48 bits are a site, and no other address is of one', () => {
  expect(siteOf('2001:db8:1:2::3')).toBe(siteOf('2001:db8:1:ffff::'))
  expect(siteOf('2001:db8:1:2::3')).not.toBe(siteOf('2001:db8:2:2::3'))
  expect(siteOf('2001:db8:1::')).not.toBe(networkOf('2001:db8:1::'))
  expect([siteOf('198.51.100.7'), siteOf('::ffff:198.51.100.7'), siteOf('unknown')]).toEqual([
    null,
    null,
    null,
  ])
})
