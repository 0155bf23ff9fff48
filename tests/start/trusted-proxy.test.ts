import fc from 'fast-check'
import Fastify from 'fastify'
import { expect, test } from 'vitest'
import { ConfigFaults, readConfig } from '../../src/config.ts'

/** The proxies that a setting comes to, or what is said against it. */
function proxiesOf(TRUSTED_PROXY: string): string[] | string {
  try {
    return readConfig({ TRUSTED_PROXY }).trustedProxy
  } catch (error) {
    if (!(error instanceof ConfigFaults)) throw error
    return error.faults.join('\n')
  }
}

test.each([
  '1.2.3',
  '10.0.0.0/99',
  '10.0.0.0/0',
  '10.0.0.0/',
  '10.0.0.0/8/8',
  '10.0.0.0/255.0.0.0',
  '010.0.0.1',
  '::::',
  '::1/129',
  '::/0',
  '/8',
  'fe80::1%eth0',
  'proxy.example',
  '127.0.0.1; 10.0.0.1',
  '127.0.0.1, 10.0.0.0/33',
])('TRUSTED_PROXY=%s is a fault of the configuration, in one line', typed => {
  expect(proxiesOf(typed)).toBe(
    'TRUSTED_PROXY must be addresses, or ranges such as 10.0.0.0/8, with commas between them',
  )
})

test.each([
  ['127.0.0.1', ['127.0.0.1']],
  ['127.0.0.1, 10.0.0.0/8,::1', ['127.0.0.1', '10.0.0.0/8', '::1']],
  ['fd00::/8 ::ffff:10.0.0.1/128', ['fd00::/8', '::ffff:10.0.0.1/128']],
  ['', []],
])('TRUSTED_PROXY=%s is taken', (typed, proxies) => {
  expect(proxiesOf(typed)).toEqual(proxies)
})

const part = fc.oneof(
  fc.ipV4(),
  fc.ipV6(),
  fc.ipV4Extended(),
  fc.constantFrom('1', '1.2.3', '::', ':', '0', '256.0.0.1', ''),
)
const range = fc.tuple(
  part,
  fc.constantFrom('', '/'),
  fc.constantFrom('', '0', '1', '8', '08', '32', '33', '128', '129'),
)

test('whatever is taken, the server starts with', () => {
  let taken = 0
  fc.assert(
    fc.property(range, typed => {
      const proxies = proxiesOf(typed.join(''))
      if (typeof proxies === 'string') return
      taken += 1
      expect(() => Fastify({ trustProxy: proxies })).not.toThrow()
    }),
  )
  expect(taken).toBeGreaterThan(0)
})
