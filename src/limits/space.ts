import { networkOf } from './network.ts'

export interface SpaceLimits {
  /** Of all together, and of each network, in bytes. */
  all: number
  network: number
}

/** What strangers may send at the same time: it is held in memory until it was answered. */
export const SPACE: SpaceLimits = { all: 96_000_000, network: 48_000_000 }

/** How much room is left for what is sent just now, each network by itself and all together. Kept in this process alone. */
export class Space {
  readonly #limits: SpaceLimits
  #taken = 0
  readonly #networks = new Map<string, number>()

  constructor(limits = SPACE) {
    this.#limits = limits
  }

  /** How much is taken. */
  get taken(): number {
    return this.#taken
  }

  /** Takes so much for who sends from an address, or as much of it as there is; gives how much that was. */
  take(bytes: number, address: string): number {
    const network = networkOf(address)
    const own = this.#networks.get(network) ?? 0
    const given = Math.max(0, Math.min(bytes, this.#limits.all - this.#taken, this.#limits.network - own))
    this.#taken += given
    if (given > 0) this.#networks.set(network, own + given)
    return given
  }

  /** Gives back what was taken. */
  giveBack(bytes: number, address: string): void {
    const network = networkOf(address)
    this.#taken -= bytes
    const own = (this.#networks.get(network) ?? 0) - bytes
    if (own > 0) this.#networks.set(network, own)
    else this.#networks.delete(network)
  }
}
