import { Counted } from './counted.ts'

export const MINUTES = 10 * 60 * 1000
export const HOUR = 60 * 60 * 1000
export const DAY = 24 * HOUR
const MOST_NETWORKS = 10_000
const EVERYWHERE = ''

/** How many requests came before one: from its address within an hour, and of those let in from its network within an hour and from everywhere. */
export interface Before {
  address: number
  network: number
  minutes: number
  day: number
}

/** Counts requests by where they come from; `at` is in milliseconds since 1970. */
export interface Budgets {
  before(address: string, network: string, at: number): Promise<Before>
  /** Counts one more; `network` is null of one that is held, which takes nothing from the rest. */
  add(address: string, network: string | null, at: number): Promise<void>
}

/** Counts those of this process alone, in memory. */
export class BudgetsHere implements Budgets {
  readonly #ofHour = new Counted(HOUR, 2 * MOST_NETWORKS)
  readonly #inMinutes = new Counted(MINUTES, 1)
  readonly #inDay = new Counted(DAY, 1)

  async before(address: string, network: string, at: number): Promise<Before> {
    return {
      address: this.#ofHour.of(address, at),
      network: this.#ofHour.of(network, at),
      minutes: this.#inMinutes.of(EVERYWHERE, at),
      day: this.#inDay.of(EVERYWHERE, at),
    }
  }

  async add(address: string, network: string | null, at: number): Promise<void> {
    this.#ofHour.add(address, at)
    if (network === null) return
    this.#ofHour.add(network, at)
    this.#inMinutes.add(EVERYWHERE, at)
    this.#inDay.add(EVERYWHERE, at)
  }
}
