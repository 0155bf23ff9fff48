import fc from 'fast-check'
import { expect, it } from 'vitest'
import { optionsFor } from '../../../src/estimate/packs/choices.ts'
import { moneyIn, tripCost } from '../../../src/estimate/packs/money.ts'
import type { Buying, Part } from '../../../src/estimate/packs/offers.ts'
import { finderOf } from '../../../src/estimate/packs/together.ts'
import { tripsOver } from '../../../src/estimate/packs/trips.ts'
import { contentsOf, type ExtraPack, type Pack } from '../../../src/estimate/table/pack.ts'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../../src/estimate/table/rate-table-schema.ts'
import { unitSystem } from '../../../src/estimate/units/units.ts'
import { Decimal } from '../../../src/lib/decimal.ts'
import { taxOf } from '../taxes.ts'
import { anyBuying, anyNeed } from './generated.ts'
import { buying } from './made.ts'

const runs = { numRuns: 300 }
const every = ({ taken, others }: Buying) => [taken, ...others]

it('the tables that are generated are ones that the rate table takes', () => {
  fc.assert(
    fc.property(anyBuying, table => {
      expect(rateTableSchema.safeParse(table).error?.issues).toBeUndefined()
    }),
    { numRuns: 60 },
  )
})

it('never falls short, and is over by a step at most unless something cheaper or the least order says so', () => {
  fc.assert(
    fc.property(anyBuying, anyNeed, (table, need) => {
      for (const { parts } of every(buying(need, table))) {
        const [{ way, units, contents, upToBreak }] = parts as [Part]
        const { pack } = way!
        const each = contentsOf(pack, unitSystem('us')).times(pack.step)
        const over = contents.minus(need)
        expect(over.toNumber()).toBeGreaterThan(-1e-12)
        if (need.isZero()) expect(units.isZero()).toBe(true)
        const least = new Decimal(pack.least).div(pack.step).ceil().times(pack.step)
        if (!upToBreak && units.gt(least)) expect(over.toNumber()).toBeLessThan(each.toNumber())
        expect(units.mod(pack.step).isZero()).toBe(true)
        if (need.gt(0)) expect(units.gte(pack.least)).toBe(true)
        if (upToBreak) expect(turnsAt(pack, way!.delivered, units.toNumber())).toBe(true)
      }
    }),
    runs,
  )
})

// Whether something gets cheaper within the last step.
function turnsAt(pack: Pack | ExtraPack, delivered: boolean, units: number): boolean {
  const froms = pack.prices.map(({ from }) => Number(from))
  if (delivered && pack.delivered?.freeFrom) froms.push(Number(pack.delivered.freeFrom))
  return froms.some(from => units >= from && units - Number(pack.step) < from)
}

it('what is taken is the cheapest of all, or the pinned one', () => {
  fc.assert(
    fc.property(anyBuying, anyNeed, (table, need) => {
      const all = buying(need, table)
      const [{ pinned }] = table.finishes as [RateTable['finishes'][number]]
      if (pinned) expect(all.taken.parts[0]!.way!.key).toBe(pinned)
      else for (const other of all.others) expect(other.total.gte(all.taken.total)).toBe(true)
    }),
    runs,
  )
})

it('no other number of units would have cost less, tried one by one', () => {
  fc.assert(
    fc.property(anyBuying, anyNeed, (table, need) => {
      const trip = tripCost(table).toNumber()
      for (const { parts, total } of every(buying(need, table))) {
        const { pack, delivered } = parts[0]!.way!
        const contents = contentsOf(pack, unitSystem('us')).toNumber()
        const step = Number(pack.step)
        for (let steps = 0; steps * step <= 140; steps++) {
          const units = steps * step
          if (units * contents < need.toNumber() - 1e-9 || units < Number(pack.least) || units === 0) continue
          const each = Number(pack.prices.findLast(({ from }) => units >= Number(from))!.each)
          const free = pack.delivered?.freeFrom
          const fee = delivered && !(free && units >= Number(free)) ? Number(pack.delivered!.fee) : 0
          const trips = delivered ? 0 : tripsOf(units * contents, table)
          const cost = units * each + fee + trips * trip
          expect(total.toNumber()).toBeLessThanOrEqual(cost + 1e-6)
        }
      }
    }),
    runs,
  )
})

// Written on its own: each carrier takes its level load, or what its payload allows.
function tripsOf(volume: number, { carriers, finishes }: RateTable): number {
  if (carriers.length === 0) return 1
  const density = Number(finishes[0]!.densityWet ?? 0)
  const loads = carriers.map(carrier =>
    carrier.payload === null || density === 0
      ? Number(carrier.volume)
      : Math.min(Number(carrier.volume), Number(carrier.payload) / density),
  )
  return Math.ceil(volume / loads.reduce((sum, load) => sum + load, 0) - 1e-9)
}

it('more need never costs less, in any way and in the one taken', () => {
  fc.assert(
    fc.property(anyBuying, anyNeed, anyNeed, (table, one, other) => {
      const [less, more] = [Decimal.min(one, other), Decimal.max(one, other)]
      const [before, after] = [buying(less, table), buying(more, table)]
      expect(after.taken.total.gte(before.taken.total)).toBe(true)
      for (const offer of every(before)) {
        const same = every(after).find(({ parts }) => parts[0]!.way!.key === offer.parts[0]!.way!.key)!
        expect(same.total.gte(offer.total)).toBe(true)
      }
    }),
    runs,
  )
})

it('the scenarios’ steps cost what the exact purchase costs, at every need', () => {
  fc.assert(
    fc.property(anyBuying, fc.array(anyNeed, { minLength: 1, maxLength: 20 }), (table, needs) => {
      expectAgreed(table, needs, 1e-6)
    }),
    runs,
  )
})

// A tax on purchases is rounded to the cent exactly, and not at all in the scenarios.
it('with a tax on purchases they agree to half a cent', () => {
  fc.assert(
    fc.property(anyBuying, anyNeed, (table, need) => {
      const tax = taxOf({ onPurchases: '0.0725' })
      expectAgreed({ ...table, tax }, [need], 0.005 + 1e-6)
    }),
    runs,
  )
})

function expectAgreed(table: RateTable, needs: Decimal[], within: number): void {
  const trip = tripCost(table).toNumber()
  const [finish] = table.finishes
  const trips = tripsOver([finish!], table)
  const options = optionsFor(finish!, 0, trips, { least: trip, most: trip }, table, moneyIn(table))
  const find = finderOf(trips, table)
  for (const need of needs) {
    const exact = buying(need, table).taken.total.toNumber()
    expect(Math.abs(find([options(need.toNumber())], trip).total - exact)).toBeLessThanOrEqual(within)
  }
}

it('needs of more steps than are kept cost the same', () => {
  fc.assert(
    fc.property(anyBuying, table => {
      // 12,345.6 yd³ are 166,666 bags of 2 ft³, more than are kept.
      expectAgreed(
        table,
        [0.1, 700, 12_345.6].map(need => new Decimal(need)),
        1e-4,
      )
    }),
    { numRuns: 60 },
  )
})
