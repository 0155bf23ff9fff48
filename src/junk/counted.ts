interface Window {
  begun: number
  count: number
  before: number
}

/**
 * How many came within about the last so many milliseconds, under each name: those of this window, and of the one before the share that
 * still counts. Of more names than are kept, those that came least lately are forgotten.
 */
export class Counted {
  readonly #length: number
  readonly #most: number
  readonly #windows = new Map<string, Window>()

  constructor(milliseconds: number, most: number) {
    this.#length = milliseconds
    this.#most = most
  }

  /** How many came under a name, this one not counted. */
  of(name: string, at: number): number {
    const { begun, count, before } = this.#windowAt(name, at)
    const left = Math.min(1, Math.max(0, 1 - (at - begun) / this.#length))
    return Math.floor(count + before * left)
  }

  /** Counts one more under a name. */
  add(name: string, at: number): void {
    const window = this.#windowAt(name, at)
    this.#windows.delete(name)
    this.#windows.set(name, { ...window, count: window.count + 1 })
    if (this.#windows.size > this.#most) this.#windows.delete(this.#windows.keys().next().value!)
  }

  #windowAt(name: string, at: number): Window {
    const known = this.#windows.get(name)
    if (!known) return { begun: at, count: 0, before: 0 }
    const passed = Math.floor((at - known.begun) / this.#length)
    if (passed <= 0) return known
    const begun = known.begun + passed * this.#length
    return { begun, count: 0, before: passed === 1 ? known.count : 0 }
  }
}
