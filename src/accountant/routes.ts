import type { FastifyInstance, FastifyReply } from 'fastify'
import { noteAccess } from '../account/access-log.ts'
import { type Business, requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { datedDay } from '../language/dates-in-words.ts'
import { figureInWords, moneyInWords } from '../language/money-in-words.ts'
import { shareInWords } from '../language/quantity-in-words.ts'
import { dayOf, readDate } from '../lib/dates.ts'
import { writeCsv } from '../rates/csv/csv.ts'
import { zipOf } from '../rates/csv/zip.ts'
import { type Books, gatherBooks } from './books.ts'
import { FILES, type FileKey, guideText } from './files.ts'
import type { Period } from './queries.ts'

declare module '../http/render.ts' {
  interface Views {
    'accountant/show': {
      sums: [what: string, amount: string][]
      received: [way: string, amount: string][]
      purchases: [supplier: string, amount: string][]
      hours: [name: string, hours: string][]
      tax: { what: string; area: string; taxed: string; billed: string; received: string }[]
      bills: { number: string; to: string; day: string; total: string }[]
      /** What a contractor is paid in a year, from where on it is reported. */
      reportFrom: string
      inStates: boolean
      values: Typed
    }
  }
}

const OWNER = { config: { access: 'owner' } } as const
/** What takes everybody's data out. */
const DANGEROUS = { config: { access: 'owner', dangerous: true } } as const

interface PeriodRead {
  period: Period
  errors: Record<string, string>
}

/** What the accountant asks for, of a period: on a page, and as CSV files in a zip. */
export function accountantRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/accountant', OWNER, async (request, reply) => {
    const business = await requireBusiness(deps.db)
    return show(reply, business, readPeriod(request.query as Typed, deps, business))
  })

  app.post('/accountant/books.zip', DANGEROUS, async (request, reply) => {
    const business = await requireBusiness(deps.db)
    const fields = new FormFields(request.body)
    const reading = readPeriod({ from: fields.text('from'), to: fields.text('to') }, deps, business)
    if (Object.keys(reading.errors).length > 0) return show(reply, business, reading)
    const { period } = reading
    const books = await gatherBooks(deps.db, period, business.time_zone)
    const entry = {
      account_id: requireAccount(request).id,
      verb: 'books exported',
      customer_id: null,
    } as const
    await noteAccess(deps.db, entry, [], deps.now())
    const name = `books ${period.from} to ${period.to}.zip`
    return reply
      .header('content-disposition', `attachment; filename="${name}"`)
      .header('cache-control', 'no-store')
      .type('application/zip')
      .send(Buffer.from(zipOf(filesOf(books, business), deps.now())))
  })

  async function show(reply: FastifyReply, business: Business, { period, errors }: PeriodRead) {
    const books = await gatherBooks(deps.db, period, business.time_zone)
    const page = { ...viewBooks(books, business), values: { ...period } }
    return reply.page('accountant/show', { ...page, errors }, Object.keys(errors).length > 0 ? 422 : 200)
  }
}

/** The files of the zip by their names. */
function filesOf({ rows, period }: Books, { name, billing, currency }: Business): Record<string, string> {
  const files = Object.entries(FILES).map(([key, file]) => {
    const header = file.columns.map(([column]) => column)
    return [file.name, writeCsv([header, ...rows[key as FileKey]])] as const
  })
  const about = [
    `${name}, ${period.from} to ${period.to}`,
    'Miles are those that somebody noted on a load list: ask a tax office what it wants of a mileage log.',
    `Contractors are to be reported from ${billing.reportFrom} ${currency} a year on, as set by the owner. In the United States it is $2,000 for 2026, by 26 U.S.C. 6041 and 6041A as section 70433 of the law of July 4, 2025 changed them, as secondary sources say; see the IRS Instructions for Forms 1099-MISC and 1099-NEC, for the year in question.`,
  ]
  return { ...Object.fromEntries(files), 'read-me.txt': guideText(about) }
}

/** This year so far unless days were given; the last day stands after the first. */
function readPeriod(typed: Typed, { now }: Deps, { time_zone }: Business): PeriodRead {
  const today = dayOf(now(), time_zone)
  const period = {
    from: readDate(typed.from ?? '') ?? `${today.slice(0, 4)}-01-01`,
    to: readDate(typed.to ?? '') ?? today,
  }
  if (period.from <= period.to) return { period, errors: {} }
  return { period, errors: { to: 'The last day comes before the first.' } }
}

function viewBooks({ sums, tax, rows }: Books, business: Business) {
  const money = (amount: string) => moneyInWords(amount, business.currency, 'en')
  const wayOf = (way: string) => {
    const key = way as 'cash' | 'check' | 'card' | 'transfer' | 'other'
    return t('en', `deposit.way-${key}`)
  }
  const shown: [string, string][] = [
    ['Billed', sums.billed],
    ['Canceled by credit memos', sums.credited],
    ['Tax billed', sums.taxBilled],
    ['Tax received', sums.taxReceived],
    ['Money received, less what went back', sums.receivedInAll],
    ['Tips', sums.tips],
    ['Fees for returned checks', sums.fees],
    ['Dump fees', sums.dumpFees],
    ['Deposits held at the end', sums.depositsHeld],
    ['Credits of customers at the end', sums.creditsHeld],
  ]
  return {
    sums: [
      ...shown.map(([what, amount]): [string, string] => [what, money(amount)]),
      ...sums.miles.map(({ unit, distance }): [string, string] => [
        'Driven',
        `${figureInWords(distance, 'en', 1)} ${unit}`,
      ]),
    ],
    received: sums.received.map(({ way, amount }): [string, string] => [wayOf(way), money(amount)]),
    purchases: sums.purchases.map(({ supplier, amount }): [string, string] => [
      supplier || '(not said where)',
      money(amount),
    ]),
    hours: sums.hours.map(({ name, hours }): [string, string] => [name, figureInWords(hours, 'en')]),
    tax: tax.map(({ name, rate, area, taxed, billed, received }) => ({
      ...{ what: `${name} ${shareInWords(rate, 'en')}`, area: area || '(no ZIP code)' },
      ...{ taxed: money(taxed), billed: money(billed), received: money(received) },
    })),
    bills: rows.bills.map(([number = '', , day = '', , , to = '', , , , , , , total = '']) => ({
      ...{ number, to, day: datedDay(day), total: money(total) },
    })),
    reportFrom: money(business.billing.reportFrom),
    inStates: business.country === 'US',
  }
}
