import { type FormFields, tickedValues } from '../http/form-fields.ts'
import { isTimeZone } from '../lib/dates.ts'
import { isEmailAddress } from '../lib/email-address.ts'

/** What the owner says of the business; hours as a plain decimal, working days as ISO weekdays, Monday 1. */
export interface BusinessFacts {
  name: string
  phone: string
  email: string
  timeZone: string
  crewHoursADay: string
  quoteHoldsDays: number
  answerWithinDays: number
  workingDays: number[]
}

export const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday']

/** Reads the fields `business.…` and the ticks `workingDays[]`; faults go into `fields.errors`. */
export function readBusinessFacts(fields: FormFields, body: unknown): BusinessFacts {
  return {
    name: readLine(fields, 'business.name', 100, 'the name of the business'),
    phone: readPhone(fields),
    email: readEmail(fields, 'business.email', 'for homeowners'),
    timeZone: readTimeZone(fields),
    crewHoursADay: readHoursADay(fields),
    quoteHoldsDays: fields.wholeNumber('business.quoteHoldsDays', 1, 365, 'the days that a quote holds') ?? 0,
    answerWithinDays:
      fields.wholeNumber('business.answerWithinDays', 1, 30, 'the days within which you answer') ?? 0,
    workingDays: readWorkingDays(fields, body),
  }
}

/** A line of text that must be there, without line breaks. */
export function readLine(fields: FormFields, name: string, longest: number, what: string): string {
  const text = fields.text(name).replace(/\s+/g, ' ')
  if (text === '') fields.errors[name] = `Give ${what}.`
  else if (text.length > longest) fields.errors[name] = `That is longer than ${longest} characters.`
  return text
}

/** A mail address that must be there, as typed. */
export function readEmail(fields: FormFields, name: string, what: string): string {
  const email = fields.text(name)
  if (!isEmailAddress(email)) fields.errors[name] = `Give a mail address ${what}, such as name@example.org.`
  return email
}

function readPhone(fields: FormFields): string {
  const phone = readLine(fields, 'business.phone', 40, 'the phone number that people ring')
  if (phone !== '' && phone.replace(/\D/g, '').length < 5)
    fields.errors['business.phone'] = 'Give the phone number that people ring, with its digits.'
  return phone
}

function readTimeZone(fields: FormFields): string {
  const timeZone = fields.text('business.timeZone')
  if (timeZone.length > 60 || !isTimeZone(timeZone))
    fields.errors['business.timeZone'] = 'Pick the time zone that you work in.'
  return timeZone
}

function readHoursADay(fields: FormFields): string {
  const name = 'business.crewHoursADay'
  const hours = fields.figure(name, 2, 'the crew hours of a day')
  if (hours !== null && !(Number(hours) > 0 && Number(hours) <= 240))
    fields.errors[name] = 'Give the crew hours of a day, more than 0 and at most 240.'
  return hours ?? '0'
}

function readWorkingDays(fields: FormFields, body: unknown): number[] {
  const days = [...new Set(tickedValues(body, 'workingDays').map(Number))].filter(
    day => Number.isInteger(day) && day >= 1 && day <= 7,
  )
  if (days.length === 0) fields.errors.workingDays = 'Tick at least one day.'
  return days.sort()
}
