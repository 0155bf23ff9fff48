import type { PackOf } from '../db/schema/goods.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { seesCosts } from '../http/roles.ts'
import type { Account } from '../http/signed-in.ts'
import type { PackPlanned } from '../job-sheets/agreed-job.ts'
import type { Translate } from '../language/catalogue.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { readMinutes } from './minutes.ts'
import type { DumpFee, HoursWorked, PackLeft, PackUsed, ShareDone, Went } from './went.ts'

/** What a form of how a job went is read by. */
export interface Asked {
  today: string
  planned: PackPlanned[]
  /** The lines that may be done in part, with the stop where that is asked for; empty for whoever may not stop a job. */
  lines: { position: number; stop: number | null }[]
  staff: { id: number; name: string }[]
  account: Pick<Account, 'id' | 'role'>
  /** Dump fees that stand and aren't shown to whoever types. */
  hiddenFees: DumpFee[]
}

/** So many rows of hours and of dump fees a form has at most. */
export const MOST_ROWS = 12
const MOST_UNITS = 99_999
const GOES = ['on hand', 'customer'] as const

/** Reads how a job went. */
export function readWent(fields: FormFields, asked: Asked, say: Translate): FormReading<Went> {
  const outcomes =
    asked.lines.length > 0 ? (['done', 'part done', 'stopped'] as const) : (['done', 'part done'] as const)
  const outcome = fields.choice('outcome', outcomes, say('closing.pick-outcome')) ?? 'done'
  const days = readDays(fields, asked.today, say)
  return fields.reading({
    outcome,
    ...days,
    trips: fields.wholeNumber('trips', {
      most: 200,
      unreadable: say('closing.say-trips'),
      outside: say('closing.say-trips'),
    }),
    note: fields.lines('note', { most: 1000, tooLong: say('closing.too-long') }),
    used: readUsed(fields, asked.planned, say),
    left: readLeft(fields, asked.planned, say),
    hours: readHours(fields, asked.staff, say),
    fees: readFees(fields, asked, say),
    rest: outcome === 'part done' ? readRest(fields, days.lastDay, say) : null,
    shares: outcome === 'stopped' ? readShares(fields, asked.lines, say) : [],
  })
}

function readDays(fields: FormFields, today: string, say: Translate) {
  const firstDay = fields.day('firstDay', say('closing.say-day')) ?? today
  const lastDay = fields.day('lastDay', say('closing.say-day')) ?? today
  if (lastDay < firstDay) fields.fault('lastDay', say('closing.last-first'))
  if (firstDay > today) fields.fault('firstDay', say('closing.not-come'))
  if (lastDay > today) fields.fault('lastDay', say('closing.not-come'))
  return { firstDay, lastDay }
}

function readUnits(fields: FormFields, name: string, say: Translate): string | null {
  const sentence = say('closing.say-units')
  return fields.figure(name, { places: 3, most: MOST_UNITS, unreadable: sentence, outside: sentence })
}

// A pack that nobody counted isn't written down: nothing is known of it.
function readUsed(fields: FormFields, planned: PackPlanned[], say: Translate): PackUsed[] {
  return planned.flatMap(({ units, ...pack }, index) => {
    const used = readUnits(fields, `used.${index}`, say)
    return used === null ? [] : [{ ...pack, units: used, planned: units.toFixed(3) }]
  })
}

function readLeft(fields: FormFields, planned: PackPlanned[], say: Translate): PackLeft[] {
  return planned.flatMap(({ of, slug, pack }: { of: PackOf; slug: string; pack: string }, index) => {
    const units = readUnits(fields, `left.${index}`, say)
    if (units === null || new Decimal(units).isZero()) return []
    const goes = fields.choice(`goes.${index}`, GOES, say('closing.say-where')) ?? 'customer'
    return [{ of, slug, pack, units, goes: pack === '' ? 'customer' : goes }]
  })
}

function readHours(fields: FormFields, staff: Asked['staff'], say: Translate): HoursWorked[] {
  return Array.from({ length: MOST_ROWS }, (_, index) => fields.group(`hours.${index}`)).flatMap(row => {
    const name = row.line('name', { most: 80, tooLong: say('closing.too-long') })
    const known = staff.find(one => one.name.toLowerCase() === name.toLowerCase())
    const worked = (['work', 'yard', 'driving'] as const).flatMap((task): HoursWorked[] => {
      const typed = row.text(task)
      if (typed === '') return []
      const minutes = readMinutes(typed)
      if (minutes === null) row.fault(task, say('closing.say-hours'))
      return minutes ? [{ account_id: known?.id ?? null, name: known?.name ?? name, task, minutes }] : []
    })
    if (worked.length > 0 && name === '') row.fault('name', say('closing.say-who'))
    return name === '' ? [] : worked
  })
}

function readFees(fields: FormFields, { account, staff, hiddenFees }: Asked, say: Translate): DumpFee[] {
  const typed = Array.from({ length: MOST_ROWS }, (_, index) => fields.group(`fees.${index}`)).flatMap(
    row => {
      const sentence = say('closing.say-fee')
      const amount = row.figure('amount', {
        places: 2,
        most: 99_999,
        unreadable: sentence,
        outside: sentence,
      })
      const words = row.line('words', { most: 120, tooLong: say('closing.too-long') })
      if (words !== '' && row.text('amount') === '') row.fault('amount', sentence)
      if (amount === null || Number(amount) === 0) return []
      const by = row.carried('by')
      const isKept = seesCosts(account) && staff.some(({ id }) => id === by)
      return [{ amount: cents(amount), words, typed_by: isKept ? by : account.id }]
    },
  )
  return [...hiddenFees, ...typed]
}

function readRest(fields: FormFields, lastDay: string, say: Translate): Went['rest'] {
  const day = fields.day('restDay', say('closing.say-rest'))
  if (day && day <= lastDay) fields.fault('restDay', say('closing.rest-later'))
  const sentence = say('closing.say-rest-hours')
  const hours = fields.figure('restHours', {
    ...{ places: 2, above: 0, most: 999 },
    ...{ missing: sentence, unreadable: sentence, outside: sentence },
  })
  return { day: day ?? '', hours: hours ?? '0' }
}

function readShares(fields: FormFields, lines: Asked['lines'], say: Translate): ShareDone[] {
  return lines.map(({ position, stop }) => {
    const name = shareField(position, stop)
    const sentence = say('closing.say-share')
    const share = fields.figure(name, {
      places: 2,
      most: 100,
      missing: sentence,
      unreadable: sentence,
      outside: sentence,
    })
    return { position, stop, share: new Decimal(share ?? 0).div(100).toFixed(4) }
  })
}

/** The field in which the share done of a line is typed, in percent; of one stop of it where it is by stop. */
export function shareField(position: number, stop: number | null): string {
  return stop === null ? `share.${position}` : `share.${position}.${stop}`
}
