/** A window of time that began at a moment, in milliseconds, with how many came in it and in the one before. */
export interface Window {
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
    const known = this.#windows.get(name)
    return known ? leftOf(known, this.#length, at) : 0
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
    return movedOn(known, this.#length, at)
  }
}

/** How many of a window, so many milliseconds long, still count at a moment. */
export function leftOf(window: Window, length: number, at: number): number {
  const { begun, count, before } = movedOn(window, length, at)
  const left = Math.min(1, Math.max(0, 1 - (at - begun) / length))
  return Math.floor(count + before * left)
}

function movedOn(known: Window, length: number, at: number): Window {
  const passed = Math.floor((at - known.begun) / length)
  if (passed <= 0) return known
  return { begun: known.begun + passed * length, count: 0, before: passed === 1 ? known.count : 0 }
}
