import type { Now } from '../lib/dates.ts'
import { Bucket } from './bucket.ts'

/** What one network may try, and all together. */
const LIMITS = { network: { most: 30, perSecond: 0.05 }, all: { most: 600, perSecond: 2 } }
const MOST_NETWORKS = 10_000

/**
 * Counts addresses tried that no link has, over all kinds of links: of each network, and of all together. Whoever has a link
 * that stands is never asked about it, so that a household isn't shut out by what a neighbor tries.
 */
export class Guesses {
  readonly #now: Now
  readonly #limits: typeof LIMITS
  readonly #networks = new Map<string, Bucket>()
  readonly #all: Bucket

  constructor(now: Now, limits = LIMITS) {
    this.#now = now
    this.#limits = limits
    this.#all = new Bucket(limits.all, now().epochMilliseconds)
  }

  /** Counts one; false when there were too many. */
  allow(network: string): boolean {
    const at = this.#now().epochMilliseconds
    const own = this.#networks.get(network) ?? new Bucket(this.#limits.network, at)
    // The one that tried last comes last; the first is forgotten when there are too many.
    this.#networks.delete(network)
    this.#networks.set(network, own)
    if (this.#networks.size > MOST_NETWORKS) this.#networks.delete(this.#networks.keys().next().value!)
    const allowed = own.secondsUntil(1, at) === 0 && this.#all.secondsUntil(1, at) === 0
    own.take(1, at)
    this.#all.take(1, at)
    return allowed
  }
}
