import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { cents, Decimal, sumOf } from '../lib/decimal.ts'
import { guarded } from '../rates/csv/cells.ts'
import type { FileKey } from './files.ts'
import {
  findBillsUntil,
  findFeesWithin,
  findLinesWithin,
  findPaymentsUntil,
  findPurchasesWithin,
  findSettledUntil,
  type Period,
} from './queries.ts'
import { type TaxRow, taxByRate } from './tax-by-rate.ts'
import { findDumpFeesWithin, findHoursWithin, findMilesWithin } from './worked.ts'

/** Everything of a period for the accountant: the cells of each file, and its tax. */
export interface Books {
  period: Period
  rows: Record<FileKey, string[][]>
  tax: TaxRow[]
  sums: Sums
}

/** What the period comes to, in money. */
export interface Sums {
  billed: string
  credited: string
  taxBilled: string
  taxReceived: string
  /** By way, without what is credit. */
  received: { way: string; amount: string }[]
  receivedInAll: string
  tips: string
  fees: string
  depositsHeld: string
  creditsHeld: string
  dumpFees: string
  hours: { name: string; hours: string }[]
  /** By unit, with one decimal. */
  miles: { unit: string; distance: string }[]
  /** What was paid to each supplier. */
  purchases: { supplier: string; amount: string }[]
}

/** Gathers the books of a period in one reading of the store. */
export async function gatherBooks(db: Kysely<Database>, period: Period, zone: string): Promise<Books> {
  return db
    .transaction()
    .setIsolationLevel('repeatable read')
    .execute(async trx => {
      const [bills, payments] = [
        await findBillsUntil(trx, period.to),
        await findPaymentsUntil(trx, period.to),
      ]
      const lines = await findLinesWithin(trx, period)
      const fees = await findFeesWithin(trx, period)
      const purchases = await findPurchasesWithin(trx, period)
      const [dumpFees, hours] = [await findDumpFeesWithin(trx, period), await findHoursWithin(trx, period)]
      const miles = await findMilesWithin(trx, period, zone)
      const settled = await findSettledUntil(trx, period.to, zone)
      const tax = taxByRate(
        bills.map(bill => ({ ...bill, request: bill.quote_request_id, names: bill.tax_names })),
        payments.map(({ quote_request_id: request, day, amount }) => ({ request, day, amount })),
        period,
      )
      const isWithin = ({ day }: { day: string }) => day >= period.from && day <= period.to
      const held = depositsHeld(bills, payments, settled)
      const credits = creditsHeld(payments)
      const rows = {
        bills: bills.filter(isWithin).map(billCells),
        lines: lines.map(({ number, position, kind, words, quantity, amount }) => [
          ...[number, String(position), kind, guarded(words.en), guarded(quantity?.en ?? ''), amount],
        ]),
        payments: payments.filter(isWithin).map(paymentCells),
        fees: fees.map(({ day, request_number, amount }) => [day, request_number, amount]),
        tax: tax.map(({ name, rate, area, ...amounts }) => [
          ...[guarded(name), rate, guarded(area), amounts.taxed, amounts.billed, amounts.received],
        ]),
        purchases: purchases.map(purchaseCells),
        dumpFees: dumpFees.map(({ day, number, amount, words, noted_by }) => [
          ...[day, number, amount, guarded(words), guarded(noted_by)],
        ]),
        hours: hours.map(({ name, week, task, hours }) => [guarded(name), week, task, hours]),
        miles: miles.map(milesCells),
        depositsHeld: held.map(({ number, name, amount }) => [number, guarded(name), amount]),
        depositsKept: settled
          .filter(isWithin)
          .map(({ day, number, kept, back }) => [day, number, kept, back]),
        credits: credits.map(({ name, amount }) => [guarded(name), amount]),
      }
      return {
        ...{ period, rows, tax },
        sums: sumsOf({
          bills: bills.filter(isWithin),
          payments: payments.filter(isWithin),
          fees,
          tax,
          held,
          credits,
          purchases,
          dumpFees,
          hours,
          miles,
        }),
      }
    })
}

type Bill = Awaited<ReturnType<typeof findBillsUntil>>[number]
type Payment = Awaited<ReturnType<typeof findPaymentsUntil>>[number]
type Purchase = Awaited<ReturnType<typeof findPurchasesWithin>>[number]
type Miles = Awaited<ReturnType<typeof findMilesWithin>>[number]
type Settled = Awaited<ReturnType<typeof findSettledUntil>>[number]
interface Held {
  number: string
  name: string
  amount: string
}

/** All tax of a bill, below zero of a credit memo. */
function taxOfBill({ tax, kind }: Pick<Bill, 'tax' | 'kind'>): Decimal {
  const amount = new Decimal(tax?.amount ?? 0).plus(tax?.second?.amount ?? 0)
  return kind === 'bill' ? amount : amount.negated()
}

function billCells(bill: Bill): string[] {
  const tax = taxOfBill(bill)
  return [
    ...[bill.number, bill.kind, bill.day, bill.due, bill.request_number],
    ...[bill.bill_to.name, bill.place, bill.area, bill.order_number, bill.terms.exempt].map(guarded),
    ...[cents(new Decimal(bill.total).minus(tax)), cents(tax), bill.total, bill.currency],
    ...[bill.first_day ?? '', bill.last_day ?? '', bill.cancels ?? '', guarded(bill.reason)],
  ]
}

function purchaseCells(row: Purchase): string[] {
  const { bought_at, day, slug, pack, units, paid, delivered, noted_by } = row
  return [
    ...[guarded(bought_at), day, guarded(slug), guarded(pack), units, paid ?? ''],
    ...[delivered ? 'yes' : 'no', guarded(noted_by)],
  ]
}

function milesCells({ odometer_out, odometer_back, ...row }: Miles): string[] {
  return [
    ...[row.day, guarded(row.vehicle), odometer_out ?? '', odometer_back ?? '', row.distance, row.unit],
    ...[row.jobs, guarded(row.words), guarded(row.noted_by)],
  ]
}

function paymentCells(row: Payment): string[] {
  const undoes = row.returned ? 'returned' : row.undoes === null ? '' : 'undone'
  return [
    ...[row.day, row.request_number, guarded(row.name), row.kind, row.way, row.amount, row.tip, undoes],
    guarded(row.noted_by),
  ]
}

/** What is held at the end of requests that no bill stands for. */
function depositsHeld(
  bills: readonly Bill[],
  payments: readonly Payment[],
  settled: readonly Settled[],
): Held[] {
  const isSettled = new Set(settled.map(({ quote_request_id }) => quote_request_id))
  const billed = Map.groupBy(bills, bill => bill.quote_request_id)
  // What is billed once and never credited is odd in number.
  const isBilled = (id: number) => (billed.get(id)?.length ?? 0) % 2 === 1
  return [...Map.groupBy(payments, row => row.quote_request_id)].flatMap(([id, own]) => {
    const amount = totalOf(own)
    if (isBilled(id) || isSettled.has(id) || Number(amount) === 0) return []
    return [{ number: own[0]!.request_number, name: own[0]!.name, amount }]
  })
}

function creditsHeld(payments: readonly Payment[]): Pick<Held, 'name' | 'amount'>[] {
  const byCredit = payments.filter(({ way }) => way === 'credit')
  return [...Map.groupBy(byCredit, row => row.head_id).values()].flatMap(own => {
    const amount = cents(new Decimal(totalOf(own)).negated())
    return Number(amount) === 0 ? [] : [{ name: own[0]!.name, amount }]
  })
}

function totalOf(rows: readonly { amount: string }[]): string {
  return cents(sumOf(rows.map(({ amount }) => new Decimal(amount))))
}

function sumsOf(of: {
  bills: readonly Bill[]
  payments: readonly Payment[]
  fees: readonly { amount: string }[]
  tax: readonly TaxRow[]
  held: readonly Held[]
  credits: readonly { amount: string }[]
  purchases: readonly Purchase[]
  dumpFees: readonly { amount: string }[]
  hours: readonly { name: string; hours: string }[]
  miles: readonly Miles[]
}): Sums {
  const sum = (amounts: string[]) => totalOf(amounts.map(amount => ({ amount })))
  const ofKind = (kind: Bill['kind']) => of.bills.filter(bill => bill.kind === kind).map(({ total }) => total)
  const moved = of.payments.filter(({ way }) => way !== 'credit')
  return {
    billed: sum(ofKind('bill')),
    credited: sum(ofKind('credit memo')),
    taxBilled: sum(of.tax.map(({ billed }) => billed)),
    taxReceived: sum(of.tax.map(({ received }) => received)),
    received: [...Map.groupBy(moved, ({ way }) => way)].map(([way, own]) => ({ way, amount: totalOf(own) })),
    receivedInAll: totalOf(moved),
    tips: sum(of.payments.map(({ tip }) => tip)),
    fees: totalOf(of.fees),
    depositsHeld: totalOf(of.held),
    creditsHeld: totalOf(of.credits),
    dumpFees: totalOf(of.dumpFees),
    hours: [...Map.groupBy(of.hours, ({ name }) => name)].map(([name, own]) => ({
      ...{ name, hours: sum(own.map(({ hours }) => hours)) },
    })),
    miles: [...Map.groupBy(of.miles, ({ unit }) => unit)].map(([unit, own]) => ({
      ...{ unit, distance: sumOf(own.map(({ distance }) => new Decimal(distance))).toFixed(1) },
    })),
    purchases: [...Map.groupBy(of.purchases, row => row.bought_at)].map(([supplier, own]) => ({
      ...{ supplier, amount: sum(own.map(({ paid }) => paid ?? '0')) },
    })),
  }
}
