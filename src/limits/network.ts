import { isIPv6 } from 'node:net'
import { normalizeIP } from '@fastify/rate-limit'

/**
 * The network that an address belongs to, as far as one household has it for itself: of IPv6 the first 64 bits, since
 * whoever has one address there has them all; else the address. As the limits of http/rate-limits.ts count, too.
 */
export function networkOf(address: string): string {
  return normalizeIP(address, 64)
}

/** What is given out to a business, or to a street of households, at once: the first 48 bits of IPv6; null of any other address. */
export function siteOf(address: string): string | null {
  // An IPv4 address that is written as IPv6 comes back as what it is.
  return isIPv6(networkOf(address)) ? `${normalizeIP(address, 48)}/48` : null
}

/** The neighborhood of an address, larger than a household: of IPv4 the first 24 bits, of IPv6 the first 48. */
export function rangeOf(address: string): string {
  return siteOf(address) ?? `${networkOf(address).split('.').slice(0, 3).join('.')}.0/24`
}
