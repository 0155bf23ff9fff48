import type { Now } from '../lib/dates.ts'
import { networkOf, rangeOf } from '../limits/network.ts'
import { type Budgets, BudgetsHere } from './budgets.ts'
import { Copies, type Repeats } from './copies.ts'
import { hashOf, sketchOf } from './likeness.ts'
import { sitesIn } from './links-in.ts'
import { HOLD_FROM, score, type Verdict, type Words } from './score.ts'

const MOST_VERDICTS = 2_000
const NEVER: Repeats = { here: 0, elsewhere: 0 }
const MOST_SITES = 5

/** A request as it comes in, before anything of it is kept. */
export interface Arriving {
  /** The same for the same content under the same key of a form: it is weighed once, however often it is pressed. */
  submission: string
  address: string
  words: Words
  phone: string
  email: string
  hiddenBox: string
  seconds: number | null
}

/** What is said of one: to be held as maybe junk, or let in. */
export type Weighed = Verdict & { held: boolean }

/** By what requests are weighed, where that isn't as usual. */
export interface Weighing {
  budgets?: Budgets
  holdFrom?: number
}

/**
 * Weighs requests one after the other, each with what came before it. How many came is counted by what is handed in, so that several processes may share it; what it
 * remembers of texts is hashes in this process alone, of a day at most.
 */
export class JunkWatch {
  readonly #now: Now
  readonly #holdFrom: number
  readonly #budgets: Budgets
  readonly #texts = new Copies()
  readonly #shortTexts = new Copies()
  readonly #contacts = new Copies()
  readonly #sites = new Copies()
  readonly #weighed = new Map<string, Promise<Weighed>>()
  #last: Promise<unknown> = Promise.resolve()

  constructor(now: Now, { budgets = new BudgetsHere(), holdFrom = HOLD_FROM }: Weighing = {}) {
    this.#now = now
    this.#budgets = budgets
    this.#holdFrom = holdFrom
  }

  /** Weighs a request, and remembers that it came. */
  weigh(arriving: Arriving): Promise<Weighed> {
    const known = this.#weighed.get(arriving.submission)
    if (known) return known
    // One after the other: of several at once each is to count for the next.
    const at = this.#now().epochMilliseconds
    const weighed = this.#last.then(() => this.#weigh(arriving, at))
    this.#last = weighed.catch(() => this.#weighed.delete(arriving.submission))
    this.#weighed.set(arriving.submission, weighed)
    if (this.#weighed.size > MOST_VERDICTS) this.#weighed.delete(this.#weighed.keys().next().value!)
    return weighed
  }

  async #weigh({ address, words, phone, email, hiddenBox, seconds }: Arriving, at: number): Promise<Weighed> {
    const [network, range] = [networkOf(address), rangeOf(address)]
    const sketch = sketchOf([words.note, words.preferredTimes, words.gate, words.dog].join('\n'))
    const contact = [words.name, words.street, phone, email].join('\n').toLowerCase()
    const verdict = score({
      words,
      hiddenBox,
      seconds,
      before: await this.#budgets.before(network, range, at),
      text: sketch && !sketch.isShort ? this.#texts.note(sketch.hashes, network, at) : NEVER,
      shortText: sketch?.isShort ? this.#shortTexts.note(sketch.hashes, network, at) : NEVER,
      site: this.#noteSites(words, network, at),
      contact: this.#contacts.note([hashOf(contact)], network, at),
    })
    const held = verdict.points >= this.#holdFrom
    // What is held takes nothing from the rest: junk that is known for it must not keep people out, nor neighbors.
    await this.#budgets.add(network, held ? null : range, at)
    return { ...verdict, held }
  }

  /** Of the sites that a request links to, the one that others link to most. */
  #noteSites(words: Words, network: string, at: number): Repeats {
    const sites = sitesIn(Object.values(words).join('\n')).slice(0, MOST_SITES)
    const noted = sites.map(site => this.#sites.note([hashOf(site)], network, at))
    return noted.sort((a, b) => b.elsewhere - a.elsewhere)[0] ?? NEVER
  }
}
