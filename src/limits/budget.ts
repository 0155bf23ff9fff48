import type { Now } from '../lib/dates.ts'
import { Bucket, type Limits } from './bucket.ts'
import { networkOf, siteOf } from './network.ts'

/**
 * Work is counted in units of about a millisecond of one processor. A visitor who changes ten beds at every pause asks for
 * 4 times 7 units a second at most, and mostly for one of them: a dozen such households behind one address have enough, and
 * so have many addresses, while more than half of a processor is left to everything else, even after a burst of a second.
 */
export const LIMITS: BudgetLimits = {
  network: { most: 400, perSecond: 100 },
  site: { most: 400, perSecond: 200 },
  all: { most: 400, perSecond: 400 },
  mostNetworks: 10_000,
}

/**
 * Of photos: one with 12 million pixels is 240 to 960 units, see unitsOfPicture. So two households with six of them each share an address,
 * and all together keep less than half a processor busy.
 */
export const PHOTO_LIMITS: BudgetLimits = {
  network: { most: 6000, perSecond: 100 },
  site: { most: 6000, perSecond: 200 },
  all: { most: 6000, perSecond: 400 },
  mostNetworks: 10_000,
}

export interface BudgetLimits {
  /** Of each network. */
  network: Limits
  /** Of all networks of a site of IPv6 together: its holder may ask from each of them. */
  site: Limits
  /** Of all of them together. */
  all: Limits
  /** How many networks and sites are remembered; of more, those that asked least lately are forgotten. */
  mostNetworks: number
}

/** How much work strangers may have done, each network by itself and all together. Kept in this process alone. */
export class Budget {
  readonly #limits: BudgetLimits
  readonly #now: Now
  readonly #all: Bucket
  /** Those that asked least lately first. */
  readonly #networks = new Map<string, Bucket>()

  constructor(now: Now, limits = LIMITS) {
    this.#limits = limits
    this.#now = now
    this.#all = new Bucket(limits.all, now().epochMilliseconds)
  }

  /** How many networks and sites are remembered. */
  get networks(): number {
    return this.#networks.size
  }

  /**
   * Takes so many units for who asks from an address.
   * @returns 0; or in how many whole seconds there is enough of them, and then nothing was taken
   */
  take(units: number, address: string): number {
    const at = this.#now().epochMilliseconds
    const site = siteOf(address)
    const ofSite = site === null ? [] : [this.#bucketOf(site, this.#limits.site, at)]
    return takeFrom([this.#ownOf(address, at), ...ofSite, this.#all], units, at)
  }

  /** The same from what is the network's own alone: whatever strangers do elsewhere, it is there. */
  takeOwn(units: number, address: string): number {
    const at = this.#now().epochMilliseconds
    return takeFrom([this.#ownOf(address, at)], units, at)
  }

  #ownOf(address: string, at: number): Bucket {
    return this.#bucketOf(networkOf(address), this.#limits.network, at)
  }

  #bucketOf(name: string, limits: Limits, at: number): Bucket {
    const known = this.#networks.get(name)
    const bucket = known ?? new Bucket(limits, at)
    if (known) this.#networks.delete(name)
    else if (this.#networks.size >= this.#limits.mostNetworks) this.#forgetFirst()
    this.#networks.set(name, bucket)
    return bucket
  }

  #forgetFirst(): void {
    for (const first of this.#networks.keys()) {
      this.#networks.delete(first)
      return
    }
  }
}

function takeFrom(buckets: Bucket[], units: number, at: number): number {
  const seconds = Math.max(...buckets.map(bucket => bucket.secondsUntil(units, at)))
  if (seconds > 0) return Math.ceil(seconds)
  for (const bucket of buckets) bucket.take(units, at)
  return 0
}
