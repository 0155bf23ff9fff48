import { BlockList, isIPv4, isIPv6 } from 'node:net'
import type { FastifyInstance, FastifyRequest } from 'fastify'
import type { Now } from '../lib/dates.ts'

const MINUTES = 60
const MINUTE = 60_000
const PROBES = ['/livez', '/readyz', '/healthz']

const nearby = new BlockList()
// Loopback; private (RFC 1918, and RFC 4193 for IPv6); link-local; and shared (RFC 6598), as networks of containers use.
for (const [network, bits] of [
  ['127.0.0.0', 8],
  ['10.0.0.0', 8],
  ['172.16.0.0', 12],
  ['192.168.0.0', 16],
  ['169.254.0.0', 16],
  ['100.64.0.0', 10],
] as const)
  nearby.addSubnet(network, bits)
nearby.addAddress('::1', 'ipv6')
nearby.addSubnet('fc00::', 7, 'ipv6')

/** What arrived since the start, as far as it tells whether the right proxy is trusted. */
export interface Arrived {
  /** How many requests a trusted proxy passed on, and how many came without one. */
  passedOn: number
  straight: number
  /** Who passed requests on in the last hour, last of all, without being trusted, and how many; null where nobody did. */
  untrusted: { peer: string; count: number } | null
}

/**
 * Notes how requests arrive: in memory alone, counts and the one address of a machine nearby that passes requests on as
 * a proxy does and isn't trusted. An address on the internet that says so is a visitor's, and isn't kept.
 */
export class Arrivals {
  #now: Now
  #passedOn = 0
  #straight = 0
  #peer = ''
  /** Counts of the last sixty minutes, each at its minute of the hour. */
  #counts: number[] = new Array(MINUTES).fill(0)
  #minute = 0
  #warned: number | null = null

  constructor(now: Now) {
    this.#now = now
  }

  /** Notes a request; gives the peer that should be warned of now, once an hour at most. */
  note(how: 'passed on' | 'straight' | 'untrusted', peer: string): string | null {
    if (how === 'passed on') this.#passedOn += 1
    else this.#straight += 1
    if (how !== 'untrusted' || !isNearby(peer)) return null
    this.#forgetOld()
    if (peer !== this.#peer) this.#counts.fill(0)
    this.#peer = peer
    this.#counts[this.#minute % MINUTES]! += 1
    if (this.#warned !== null && this.#minute - this.#warned < MINUTES) return null
    this.#warned = this.#minute
    return peer
  }

  arrived(): Arrived {
    this.#forgetOld()
    const count = this.#counts.reduce((sum, one) => sum + one, 0)
    return {
      passedOn: this.#passedOn,
      straight: this.#straight,
      untrusted: count > 0 ? { peer: this.#peer, count } : null,
    }
  }

  #forgetOld(): void {
    const minute = Math.floor(this.#now().epochMilliseconds / MINUTE)
    const gone = Math.min(Math.max(minute - this.#minute, 0), MINUTES)
    for (let past = 0; past < gone; past += 1) this.#counts[(minute - past) % MINUTES] = 0
    this.#minute = Math.max(minute, this.#minute)
    if (gone === MINUTES) this.#peer = ''
  }
}

/** What to set `TRUSTED_PROXY` to, if the peer is the proxy: one that is trusted and passes requests on stays. */
export function proxiesWith(peer: string, trusted: readonly string[], { passedOn }: Arrived): string {
  return [...(passedOn > 0 ? trusted : []), peer].join(',')
}

/** Has every request noted but those that ask whether the service lives, and warns of a proxy that isn't trusted. */
export function noteArrivals(app: FastifyInstance, arrivals: Arrivals, trusted: readonly string[]): void {
  app.addHook('onRequest', (request, _reply, done) => {
    if (!PROBES.includes(request.routeOptions.url ?? '')) {
      const peer = arrivals.note(howArrived(request), plain(request.socket.remoteAddress ?? ''))
      if (peer)
        app.log.warn(
          `Requests come through ${peer}, which isn't trusted, so all visitors count as one. If that is your proxy, set TRUSTED_PROXY=${proxiesWith(peer, trusted, arrivals.arrived())}. Anybody can send such a header, so look first.`,
        )
    }
    done()
  })
}

/** How the framework takes it: it reads what a proxy says only of one that it trusts. */
function howArrived(request: FastifyRequest): 'passed on' | 'straight' | 'untrusted' {
  const { 'x-forwarded-for': client, 'x-forwarded-proto': scheme } = request.headers
  if (!client && !scheme) return 'straight'
  const isBelieved = client ? (request.ips?.length ?? 1) > 1 : request.protocol === 'https'
  return isBelieved ? 'passed on' : 'untrusted'
}

function plain(address: string): string {
  const [, inner = address] = /^::ffff:(.*\..*)$/i.exec(address) ?? []
  return inner
}

function isNearby(address: string): boolean {
  if (isIPv4(address)) return nearby.check(address)
  return isIPv6(address) && nearby.check(address, 'ipv6')
}
