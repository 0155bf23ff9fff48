import { randomUUID } from 'node:crypto'
import type { PackOf } from '../db/schema/goods.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { substitutesOf } from '../estimate/table/substitutes.ts'
import { seesCosts, worksInOffice } from '../http/roles.ts'
import type { Account } from '../http/signed-in.ts'
import { type Translate, translator } from '../language/catalogue.ts'
import { shortDate } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { nameOfThing } from '../on-hand/pack-words.ts'
import type { DayLoad, LoadLine } from './find-load.ts'
import type { Take } from './from-on-hand.ts'
import type { OrderOfDay } from './orders-of-day.ts'
import { packsInWords } from './packs-in-words.ts'
import type { Got } from './queries.ts'
import { inWholePacks, type Share } from './share-out.ts'

/** Whoever reads a load list: with money for whoever sees costs, and in what language. */
export interface Reader {
  account: Account
  language: Language
  country: string
}

/** A line to take or to buy, as its form has it. */
export interface LineView {
  /** By which a tick of it is known again. */
  key: string
  nth: number
  of: PackOf
  slug: string
  pack: string
  delivered: boolean
  onHandId: number | null
  what: string
  thing: string
  forJobs: string
  /** What it comes to; '' for whoever sees no money, or where it isn't known. */
  money: string
  /** More is bought than needed, as it costs less. */
  upToBreak: boolean
  spot: string
  /** With whom it is on order, in words; '' where it isn't. */
  order: string
  units: string
  packs: { value: string; label: string }[]
  soldOut: { instead: string; jobs: { number: string; path: string }[] } | null
}

/** Something that was got, for whoever sees it. */
export interface GotView {
  id: number
  what: string
  thing: string
  forJobs: string
  facts: string[]
  hasTicket: boolean
  mayUndo: boolean
}

type SoldOut = { quote_request_id: number; of: PackOf; slug: string }[]

/** What is known of a day besides what it takes. */
interface Known {
  soldOut: SoldOut
  orders: OrderOfDay[]
}

/** The lines of a load, in words: what is taken from on hand, what is picked up, and what is brought. */
export function viewLines(load: DayLoad, table: RateTable, { soldOut, orders }: Known, reader: Reader) {
  const words = new LoadWords(load, table, reader)
  const takes = load.takes.map((take, nth) => words.take(take, nth))
  const bought = load.lines.map((line, nth) => words.line(line, takes.length + nth, { soldOut, orders }))
  return {
    takes,
    pickUp: bought.filter(({ delivered }) => !delivered),
    delivered: bought.filter(({ delivered }) => delivered),
  }
}

/** What was got so far, in words; of what was paid only the owner sees more than his own. */
export function viewGot(load: DayLoad, table: RateTable, reader: Reader): GotView[] {
  const words = new LoadWords(load, table, reader)
  return load.got.map(one => words.got(one))
}

class LoadWords {
  readonly #load: DayLoad
  readonly #table: RateTable
  readonly #reader: Reader
  readonly #t: Translate

  constructor(load: DayLoad, table: RateTable, reader: Reader) {
    this.#load = load
    this.#table = table
    this.#reader = reader
    this.#t = translator(reader.language, reader.country)
  }

  take({ row, pack, units, shares }: Take, nth: number): LineView {
    const { of, slug } = row
    const named = { of, slug, pack: row.pack }
    return {
      ...this.#named(nth, named, units, shares, pack.kind),
      ...{ delivered: false, onHandId: row.id, money: '', packs: [], soldOut: null, upToBreak: false },
      order: '',
      spot: row.spot || this.#t('hand.yard'),
    }
  }

  line(line: LoadLine, nth: number, { soldOut, orders }: Known): LineView {
    const { of, slug, pack, units, delivered } = line
    const named = { of, slug, pack: pack?.slug ?? '' }
    return {
      ...this.#named(nth, named, units, line.shares, pack?.kind),
      ...{ delivered, onHandId: null, spot: '', money: this.#moneyOf(line), upToBreak: line.upToBreak },
      packs: line.thing.packs.map(({ slug, name }) => ({ value: slug, label: name[this.#reader.language] })),
      soldOut: this.#soldOut(line, soldOut),
      order: this.#order({ ...named, delivered }, orders),
    }
  }

  got(one: Got): GotView {
    const { of, slug, pack, units, day } = one
    const { account, language } = this.#reader
    const isOwn = one.made_by === account.id
    const maySee = seesCosts(account) || isOwn
    const money =
      maySee && one.paid !== null ? this.#t('loads.paid-was', { amount: this.#money(one.paid) }) : ''
    const from = one.on_hand_id === null ? one.bought_at : this.#t('loads.from-hand')
    const facts = [from, money, this.#t('loads.by', { name: one.by_name })]
    if (day !== this.#load.day) facts.push(this.#t('loads.got-for', { day: shortDate(day, language) }))
    const shares = one.shares.map(share => ({
      jobId: share.quote_request_id,
      units: new Decimal(share.units),
      number: share.number,
    }))
    const whole = this.#whole(pack, shares, new Decimal(units))
    return {
      id: one.id,
      what: packsInWords(new Decimal(units), { of, slug, pack }, this.#table, language),
      thing: nameOfThing({ of, slug, pack }, this.#table, language),
      forJobs: whole.map(({ units }, index) => `${shares[index]!.number}: ${this.#figure(units)}`).join('; '),
      facts: facts.filter(Boolean),
      hasTicket: one.has_ticket && maySee,
      mayUndo: maySee,
    }
  }

  #named(
    nth: number,
    named: { of: PackOf; slug: string; pack: string },
    units: Decimal,
    shares: Share[],
    kind: string | undefined,
  ) {
    const { language } = this.#reader
    const isLoose = kind === undefined || kind === 'bulk' || kind === 'weighed'
    const own = isLoose ? shares : inWholePacks(shares, units)
    return {
      key: randomUUID(),
      nth,
      ...named,
      what: packsInWords(units, named, this.#table, language),
      thing: nameOfThing(named, this.#table, language),
      forJobs: own.map(({ jobId, units }) => `${this.#number(jobId)}: ${this.#figure(units)}`).join('; '),
      units: units.toFixed(),
    }
  }

  #whole(pack: string, shares: Share[], all: Decimal): Share[] {
    return pack === '' || !all.isInteger() ? shares : inWholePacks(shares, all)
  }

  // Only of jobs that want it still: who has accepted something else needn't be asked.
  #soldOut({ of, slug, thing, shares }: LoadLine, all: SoldOut): LineView['soldOut'] {
    const told = all.filter(
      one =>
        one.of === of &&
        one.slug === slug &&
        shares.some(({ jobId }) => jobId === one.quote_request_id) &&
        !this.#load.jobs.some(({ id, is_erased }) => is_erased && id === one.quote_request_id),
    )
    if (told.length === 0) return null
    const { language, account } = this.#reader
    const names = of === 'finish' && 'substitutes' in thing ? substitutesOf(thing, this.#table) : []
    return {
      instead: names.map(({ name }) => name[language]).join(', '),
      jobs: told.map(({ quote_request_id }) => {
        const number = this.#number(quote_request_id)
        const path = worksInOffice(account) ? `/queue/${number}/quote` : `/days/jobs/${number}/change`
        return { number, path }
      }),
    }
  }

  #order(line: Pick<LineView, 'of' | 'slug' | 'pack' | 'delivered'>, orders: OrderOfDay[]): string {
    const own = orders.find(
      one =>
        one.of === line.of &&
        one.slug === line.slug &&
        one.pack === line.pack &&
        one.delivered === line.delivered,
    )
    if (!own) return ''
    const { units, state, name, phone } = own
    const params = {
      what: packsInWords(new Decimal(units), line, this.#table, this.#reader.language),
      supplier: [name, phone].filter(Boolean).join(', '),
    }
    return state === 'confirmed'
      ? this.#t('loads.order-confirmed', params)
      : this.#t('loads.order-placed', params)
  }

  #moneyOf({ money }: LoadLine): string {
    return seesCosts(this.#reader.account) && money ? this.#money(money) : ''
  }

  #money(amount: Decimal | string): string {
    return moneyInWords(cents(amount), this.#table.currency, this.#reader.language)
  }

  #number(jobId: number): string {
    return this.#load.jobs.find(({ id }) => id === jobId)?.number ?? ''
  }

  #figure(units: Decimal): string {
    return units.toDecimalPlaces(2).toFixed()
  }
}
