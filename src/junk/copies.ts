import { areCopies } from './likeness.ts'

const DAY = 24 * 60 * 60 * 1000
const MOST_KNOWN = 4_000
/** Of more networks nobody has to know. */
const MOST_NETWORKS = 64

/** How often something was sent before within a day: by this network, and by how many others. */
export interface Repeats {
  here: number
  elsewhere: number
}

interface Known {
  hashes: string[]
  networks: Map<string, number>
  at: number
}

/** What was sent within a day, each text once with the networks it came from, so that many copies take no more room than one. */
export class Copies {
  /** The one seen least lately first. */
  readonly #known = new Set<Known>()
  readonly #byHash = new Map<string, Set<Known>>()

  /** How many texts are known. */
  get size(): number {
    return this.#known.size
  }

  /** Notes a text by the hashes of its sketch, or by a single one that has to be the same; says how often it came before. */
  note(hashes: string[], network: string, at: number): Repeats {
    this.#forgetBefore(at - DAY)
    const known = this.#find(hashes) ?? { hashes, networks: new Map(), at }
    const here = known.networks.get(network) ?? 0
    const elsewhere = known.networks.size - (here > 0 ? 1 : 0)
    if (here > 0 || known.networks.size < MOST_NETWORKS) known.networks.set(network, here + 1)
    this.#forget(known)
    known.at = at
    this.#keep(known)
    return { here, elsewhere }
  }

  #find(hashes: string[]): Known | undefined {
    const same = new Map<Known, number>()
    for (const hash of hashes)
      for (const known of this.#byHash.get(hash) ?? []) same.set(known, (same.get(known) ?? 0) + 1)
    const alike = [...same].filter(([known, count]) => areCopies(count, known.hashes, hashes))
    return alike.sort(([, a], [, b]) => b - a)[0]?.[0]
  }

  #keep(known: Known): void {
    this.#known.add(known)
    for (const hash of known.hashes) {
      const others = this.#byHash.get(hash)
      if (others) others.add(known)
      else this.#byHash.set(hash, new Set([known]))
    }
    if (this.#known.size > MOST_KNOWN) this.#forget(this.#known.values().next().value!)
  }

  #forget(known: Known): void {
    if (!this.#known.delete(known)) return
    for (const hash of known.hashes) {
      const others = this.#byHash.get(hash)!
      others.delete(known)
      if (others.size === 0) this.#byHash.delete(hash)
    }
  }

  #forgetBefore(at: number): void {
    for (const known of this.#known) {
      if (known.at >= at) return
      this.#forget(known)
    }
  }
}
