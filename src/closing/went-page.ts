import { findStaff } from '../account/queries.ts'
import { findBooking } from '../bookings/queries.ts'
import type { Business } from '../business/queries.ts'
import { freeFirstDays } from '../days/queries.ts'
import type { Deps } from '../deps.ts'
import type { Typed } from '../http/posted.ts'
import { seesCosts, worksInOffice } from '../http/roles.ts'
import type { Account } from '../http/signed-in.ts'
import { findAgreedJob, type PackPlanned, packsPlanned } from '../job-sheets/agreed-job.ts'
import { findStopsDone } from '../job-sheets/stops-done.ts'
import { t } from '../language/catalogue.ts'
import { shortDate } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { Decimal, sumOf } from '../lib/decimal.ts'
import { packsInWords } from '../loads/packs-in-words.ts'
import { nameOfPack, nameOfThing } from '../on-hand/pack-words.ts'
import { type Figures, findFigures } from './figures.ts'
import { minutesInWords } from './minutes.ts'
import { type Closing, findClosing } from './queries.ts'
import { linesToShare, type ShareRow } from './share-rows.ts'
import type { DumpFee, HoursWorked } from './went.ts'
import { type Asked, shareField } from './went-form.ts'

/** The form in which somebody tells how a job went. */
export interface WentPage {
  outcomes: { value: string; label: string }[]
  packs: { used: string; left: string; goes: string; label: string; planned: string; mayKeep: boolean }[]
  hours: string[]
  fees: string[]
  staff: string[]
  restDays: { value: string; label: string }[]
  shares: ShareRow[]
}

export interface WentForm {
  page: WentPage
  values: Typed
  asked: Asked
}

const SPARE_ROWS = 2
const DAYS_OFFERED = 30

/** The form of how a job went, filled in with what stands, else with what was planned; undefined where nothing was agreed. */
export async function viewWent(
  deps: Deps,
  business: Business,
  request: { id: number },
  account: Account,
  language: Language,
): Promise<WentForm | undefined> {
  const agreed = await findAgreedJob(deps.db, request.id)
  if (!agreed) return undefined
  const closing = await findClosing(deps.db, request.id)
  const figures = closing && (await findFigures(deps.db, closing.id))
  const staff = await findStaff(deps.db)
  const planned = packsPlanned(agreed)
  const inOffice = worksInOffice(account)
  const done = await findStopsDone(deps.db, request.id)
  const shares = inOffice ? await linesToShare(deps.db, agreed, done, figures?.shares) : []
  const fees = (figures?.fees ?? []).filter(fee => seesCosts(account) || fee.typed_by === account.id)
  const people = peopleOf(staff, figures?.hours ?? [])
  const booked = (await findBooking(deps.db, request.id))?.days ?? []
  const today = dayOf(deps.now(), business.time_zone)
  const restHours = restOf(agreed.quote.labor_hours, booked, today)
  const from = addDays(today, 1)
  const free = await freeFirstDays(deps.db, business, restHours, from, DAYS_OFFERED, deps.now())
  const own = booked.filter(({ day }) => day > today).map(({ day }) => day)
  const outcomes = inOffice ? (['done', 'part done', 'stopped'] as const) : (['done', 'part done'] as const)
  return {
    asked: {
      ...{ today, planned, staff, account },
      lines: shares.map(({ position, stop }) => ({ position, stop })),
      hiddenFees: (figures?.fees ?? []).filter(fee => !fees.includes(fee)),
    },
    page: {
      outcomes: outcomes.map(value => ({ value, label: t(language, OUTCOME[value]) })),
      packs: planned.map((pack, index) => ({
        ...{ used: `used.${index}`, left: `left.${index}`, goes: `goes.${index}` },
        ...packInWords(pack, agreed.table, language),
        mayKeep: pack.pack !== '',
      })),
      hours: rowsOf('hours', people.length + SPARE_ROWS),
      fees: rowsOf('fees', fees.length + SPARE_ROWS),
      staff: staff.map(({ name }) => name),
      restDays: [...new Set([...own, ...free.map(({ day }) => day)])]
        .sort()
        .map(value => ({ value, label: shortDate(value, language) })),
      shares,
    },
    values: {
      ...daysTold(closing, booked, today),
      ...{
        outcome: closing?.outcome ?? 'done',
        restHours: new Decimal(restHours).toString(),
        restDay: own[0] ?? '',
      },
      ...{ trips: closing?.trips?.toString() ?? '', note: closing?.note ?? '' },
      ...packValues(planned, figures),
      ...hourValues(people),
      ...feeValues(fees),
      ...Object.fromEntries(shares.map(({ position, stop, share }) => [shareField(position, stop), share])),
    },
  }
}

const OUTCOME = {
  done: 'closing.outcome-done',
  'part done': 'closing.outcome-part-done',
  stopped: 'closing.outcome-stopped',
} as const

function rowsOf(name: string, count: number): string[] {
  return Array.from({ length: count }, (_, index) => `${name}.${index}`)
}

function packInWords(pack: PackPlanned, table: Parameters<typeof nameOfThing>[1], language: Language) {
  const name = nameOfThing(pack, table, language)
  const { units } = pack
  return {
    label: pack.pack === '' ? name : `${name}, ${nameOfPack(pack, table, language)}`,
    planned: t(language, 'closing.planned', {
      units: packsInWords(units, pack, table, language),
    }),
  }
}

/** The labor hours that are booked on days ahead; of what has none there, half of the job. */
function restOf(laborHours: string, booked: { day: string; hours: string }[], today: string): string {
  const ahead = sumOf(booked.filter(({ day }) => day > today).map(({ hours }) => new Decimal(hours)))
  return (ahead.isZero() ? new Decimal(laborHours).div(2) : ahead).toFixed(2)
}

function daysTold(closing: Closing | undefined, booked: { day: string }[], today: string): Typed {
  const past = booked.map(({ day }) => day).filter(day => day <= today)
  const [firstDay, lastDay] = [past[0] ?? today, past.at(-1) ?? today]
  if (!closing) return { firstDay, lastDay }
  return { firstDay: closing.first_day, lastDay: [lastDay, closing.last_day].sort()[1]! }
}

function packValues(planned: PackPlanned[], figures: Figures | undefined): Typed {
  const same = (pack: PackPlanned) => (one: { of: string; slug: string; pack: string }) =>
    one.of === pack.of && one.slug === pack.slug && one.pack === pack.pack
  const entries = planned.flatMap((pack, index) => {
    const [used, left] = [figures?.used.find(same(pack)), figures?.left.find(same(pack))]
    return [
      [`used.${index}`, used ? new Decimal(used.units).toString() : ''],
      [`left.${index}`, left ? new Decimal(left.units).toString() : ''],
      [`goes.${index}`, left?.goes ?? (pack.pack === '' ? 'customer' : 'on hand')],
    ]
  })
  return Object.fromEntries(entries)
}

interface Person {
  name: string
  hours: HoursWorked[]
}

/** Everybody of the staff, and whoever else has hours, with these. */
function peopleOf(staff: { name: string }[], hours: HoursWorked[]): Person[] {
  const names = [...new Set([...hours.map(({ name }) => name), ...staff.map(({ name }) => name)])]
  return names.slice(0, 8).map(name => ({ name, hours: hours.filter(one => one.name === name) }))
}

function hourValues(people: Person[]): Typed {
  const entries = people.flatMap(({ name, hours }, index) => [
    [`hours.${index}.name`, name],
    ...hours.map(({ task, minutes }) => [`hours.${index}.${task}`, minutesInWords(minutes)]),
  ])
  return Object.fromEntries(entries)
}

function feeValues(fees: DumpFee[]): Typed {
  const entries = fees.flatMap(({ amount, words, typed_by }, index) => [
    [`fees.${index}.amount`, amount],
    [`fees.${index}.words`, words],
    [`fees.${index}.by`, String(typed_by)],
  ])
  return Object.fromEntries(entries)
}
