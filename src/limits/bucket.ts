/** How much may be taken at once, and how much comes back in a second. */
export interface Limits {
  most: number
  perSecond: number
}

// What sums of fractions are out by: a second that was waited for must not turn out too short.
const HAIR = 1e-6

/** A bucket that fills up by the clock and is taken from: what is in it never falls below nothing or rises over the most. */
export class Bucket {
  readonly #limits: Limits
  #left: number
  /** In milliseconds, as of the clock. */
  #at: number

  /** A full one. */
  constructor(limits: Limits, at: number) {
    this.#limits = limits
    this.#left = limits.most
    this.#at = at
  }

  /** How many seconds it is until so much is in it; 0 when it is. More than the most counts as the most. */
  secondsUntil(amount: number, at: number): number {
    this.#fill(at)
    const missing = Math.min(amount, this.#limits.most) - this.#left
    return missing <= HAIR ? 0 : missing / this.#limits.perSecond
  }

  /** Takes so much, as far as it is there. */
  take(amount: number, at: number): void {
    this.#fill(at)
    this.#left = Math.max(0, this.#left - amount)
  }

  // A clock that was put back brings nothing, and takes nothing either.
  #fill(at: number): void {
    const seconds = Math.max(0, at - this.#at) / 1000
    this.#at = at
    this.#left = Math.min(this.#limits.most, this.#left + seconds * this.#limits.perSecond)
  }
}
