import { setTimeout } from 'node:timers/promises'

// Each keeps what it sent in memory.
const MOST_HELD = 200

/**
 * Lets those who asked too often wait a little for being told so. A person doesn't notice; who asks again at once, over
 * many connections, would keep us busy with refusing alone.
 */
export class Hold {
  readonly #milliseconds: number
  #held = 0

  constructor(milliseconds: number) {
    this.#milliseconds = milliseconds
  }

  /** Waits; at once where so many wait already that they would cost more than refusing them does. */
  async wait(): Promise<void> {
    if (this.#milliseconds === 0 || this.#held >= MOST_HELD) return
    this.#held += 1
    await setTimeout(this.#milliseconds, null, { ref: false })
    this.#held -= 1
  }
}
