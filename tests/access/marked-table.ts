import { extraStart } from '../../src/estimate/table/complete-table.ts'
import type { Pack } from '../../src/estimate/table/pack.ts'
import type { Extra, Finish, RateTable } from '../../src/estimate/table/rate-table.ts'
import { bag, bale, bulk, piece, roll, weighed } from '../estimate/packs/made.ts'
import { taxOf } from '../estimate/taxes.ts'

/** A text that stands for one figure or name of the owner's, and for nothing else; spellings are how pages may write it. */
export interface Marker {
  of: string
  spellings: string[]
}

/** A rate table whose every cost, wage, share, size of job, price to buy at and name of a pack is a marker. */
export function markedTable(table: RateTable): { table: RateTable; markers: Marker[] } {
  const mark = new Marks()
  const finishes = table.finishes.map((finish, index) => markedFinish(finish, index, mark))
  const marked: RateTable = {
    ...table,
    finishes,
    extras: [
      ...table.extras.map(extra => ({
        ...extra,
        ...mark.span(extra.slug),
        materialCost: mark.money(`material of ${extra.slug}`),
      })),
      ...siteWork(mark),
    ],
    tiers: [mark.size('first size of job', '2'), mark.size('second size of job', '6')],
    carriers: [
      {
        name: mark.name('truck'),
        volume: mark.size('volume of the truck', '3'),
        payload: mark.money('payload'),
      },
    ],
    people: [
      {
        name: mark.word('worker'),
        come: '2',
        wage: mark.money('wage of a worker'),
        burden: mark.share('burden of a worker', '0.2'),
      },
    ],
    costs: {
      wage: mark.money('wage'),
      burden: mark.share('burden', '0.7'),
      overheadPerLaborHour: mark.money('overhead'),
      truckPerJob: mark.money('truck per job'),
      truckPerTrip: mark.money('truck per trip'),
      truckBy: 'distance',
      truckEach: mark.money('truck per mile'),
      overheadShare: mark.share('overhead as a share', '0.1'),
    },
    costPlus: { by: 'margin', share: mark.share('margin put on cost', '0.4') },
    floors: {
      margin: mark.share('floor of the margin', '0.9'),
      payPerLaborHour: mark.money('floor of the pay'),
    },
    tax: taxOf({
      onPurchases: mark.share('tax on purchases', '0.0'),
      onPurchasesNew: mark.share('tax on purchases for new work', '0.0'),
    }),
  }
  return { table: marked, markers: mark.markers }
}

function markedFinish(finish: Finish, index: number, mark: Marks): Finish {
  const of = finish.slug
  const rates = ['', ', larger', ', largest'].map(column => mark.span(of + column))
  if (index > 1) return { ...finish, rates, materialCost: mark.money(`cost of ${of}`) }
  const packs = [bag(), bale(), bulk(), weighed()].map(pack => markedPack(pack, of, mark))
  return { ...finish, rates, packs, pricedBy: index === 0 ? 'cost' : 'rate' }
}

function markedPack<Kind extends Pack | Extra['packs'][number]>(pack: Kind, of: string, mark: Marks): Kind {
  const what = `${pack.kind} of ${of}`
  return {
    ...pack,
    name: mark.name(what),
    prices: [
      { from: '0', each: mark.money(what) },
      { from: mark.money(`break of the ${what}`), each: mark.money(`${what}, more`) },
    ],
    delivered: { fee: mark.money(`delivery of the ${what}`), freeFrom: mark.money(`free from, ${what}`) },
  }
}

/** Extras that homeowners aren't offered: their names are markers too. */
function siteWork(mark: Marks): Extra[] {
  const pieces = piece({ stakeEach: mark.money('stake') })
  const packs = [[], [markedPack(roll(), 'fabric', mark)], [markedPack(pieces, 'edging', mark)]]
  return (['lying', 'area', 'edge'] as const).map((per, index) => ({
    ...extraStart,
    ...mark.span(`site work by ${per}`),
    slug: mark.slug(`site work by ${per}`),
    name: mark.name(`site work by ${per}`),
    per,
    offered: false,
    laborHours: { lower: '0', upper: '0' },
    packs: packs[index]!,
    dumpFee: per === 'lying' ? mark.money('dump fee') : '0',
    cautions: [],
  }))
}

class Marks {
  readonly markers: Marker[] = []

  /** No two alike, from 713.11 upwards, with cents that aren't round. */
  money(of: string): string {
    const cents = 71_311 + this.markers.length * 111
    const figure = (cents % 10 === 0 ? cents + 1 : cents) / 100
    return this.#keep(of, figure.toFixed(2))
  }

  span(of: string): { lower: string; upper: string } {
    return { lower: this.money(`lower rate, ${of}`), upper: this.money(`upper rate, ${of}`) }
  }

  size(of: string, whole: string): string {
    return this.#keep(of, `${whole}.31${this.#nth()}`)
  }

  share(of: string, begin: string): string {
    const share = `${begin}3${this.#nth()}`
    const percent = Number(share) * 100
    return this.#keep(of, share, percent.toFixed(3), `${percent.toFixed(2)} %`, `${percent.toFixed(1)} %`)
  }

  name(of: string): { en: string; es: string } {
    return { en: this.word(of), es: this.#keep(`Spanish name of the ${of}`, `Cosa marcada ${this.#nth()}x`) }
  }

  word(of: string): string {
    return this.#keep(`name of the ${of}`, `Marked thing ${this.#nth()}x`)
  }

  slug(of: string): string {
    return this.#keep(`slug of ${of}`, `marked-${this.#nth()}x`)
  }

  #nth(): string {
    return String(101 + this.markers.length)
  }

  #keep(of: string, ...spellings: [string, ...string[]]): string {
    this.markers.push({ of, spellings })
    return spellings[0]
  }
}
