import type { Now } from '../lib/dates.ts'
import { networkOf, rangeOf } from '../limits/network.ts'
import { Copies, type Repeats } from './copies.ts'
import { Counted } from './counted.ts'
import { hashOf, sketchOf } from './likeness.ts'
import { sitesIn } from './links-in.ts'
import { HOLD_FROM, score, type Verdict, type Words } from './score.ts'

const MINUTES = 10 * 60 * 1000
const HOUR = 60 * 60 * 1000
const DAY = 24 * HOUR
const MOST_NETWORKS = 10_000
const MOST_VERDICTS = 2_000
const EVERYWHERE = ''
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

/**
 * Weighs requests one after the other, each with what came before it. What it remembers of addresses and texts is hashes and counts in this process
 * alone, of a day at most; none of it is written down.
 */
export class JunkWatch {
  readonly #now: Now
  readonly #holdFrom: number
  readonly #ofHour = new Counted(HOUR, 2 * MOST_NETWORKS)
  readonly #inMinutes = new Counted(MINUTES, 1)
  readonly #inDay = new Counted(DAY, 1)
  readonly #texts = new Copies()
  readonly #shortTexts = new Copies()
  readonly #contacts = new Copies()
  readonly #sites = new Copies()
  readonly #weighed = new Map<string, Weighed>()

  constructor(now: Now, holdFrom = HOLD_FROM) {
    this.#now = now
    this.#holdFrom = holdFrom
  }

  /** Weighs a request, and remembers that it came. */
  weigh(arriving: Arriving): Weighed {
    const known = this.#weighed.get(arriving.submission)
    if (known) return known
    const weighed = this.#weigh(arriving)
    this.#weighed.set(arriving.submission, weighed)
    if (this.#weighed.size > MOST_VERDICTS) this.#weighed.delete(this.#weighed.keys().next().value!)
    return weighed
  }

  #weigh({ address, words, phone, email, hiddenBox, seconds }: Arriving): Weighed {
    const at = this.#now().epochMilliseconds
    const [network, range] = [networkOf(address), rangeOf(address)]
    const sketch = sketchOf([words.note, words.preferredTimes, words.gate, words.dog].join('\n'))
    const contact = [words.name, words.street, phone, email].join('\n').toLowerCase()
    const verdict = score({
      words,
      hiddenBox,
      seconds,
      before: {
        address: this.#ofHour.of(network, at),
        network: this.#ofHour.of(range, at),
        minutes: this.#inMinutes.of(EVERYWHERE, at),
        day: this.#inDay.of(EVERYWHERE, at),
      },
      text: sketch && !sketch.isShort ? this.#texts.note(sketch.hashes, network, at) : NEVER,
      shortText: sketch?.isShort ? this.#shortTexts.note(sketch.hashes, network, at) : NEVER,
      site: this.#noteSites(words, network, at),
      contact: this.#contacts.note([hashOf(contact)], network, at),
    })
    const held = verdict.points >= this.#holdFrom
    this.#ofHour.add(network, at)
    // What is held takes nothing from the rest: junk that is known for it must not keep people out, nor neighbors.
    if (!held) {
      this.#ofHour.add(range, at)
      this.#inMinutes.add(EVERYWHERE, at)
      this.#inDay.add(EVERYWHERE, at)
    }
    return { ...verdict, held }
  }

  /** Of the sites that a request links to, the one that others link to most. */
  #noteSites(words: Words, network: string, at: number): Repeats {
    const sites = sitesIn(Object.values(words).join('\n')).slice(0, MOST_SITES)
    const noted = sites.map(site => this.#sites.note([hashOf(site)], network, at))
    return noted.sort((a, b) => b.elsewhere - a.elsewhere)[0] ?? NEVER
  }
}
