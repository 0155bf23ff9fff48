import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { COUNTRIES, type Country } from '../language/countries.ts'
import { isTimeZone } from '../lib/dates.ts'
import { isEmailAddress } from '../lib/email-address.ts'

/** What the owner says of the business; hours as a plain decimal, working days as ISO weekdays, Monday 1. */
export interface BusinessFacts {
  name: string
  phone: string
  email: string
  timeZone: string
  laborHoursADay: string
  quoteHoldsDays: number
  answerWithinDays: number
  workingDays: number[]
}

/** What the page of settings asks besides. */
export interface BusinessSettings extends BusinessFacts {
  country: Country
  photos: PhotoLimits
}

/** What homeowners may send, how much room all of it may take up, and how long it stays once a request has ended. */
export interface PhotoLimits {
  each: number
  megabytes: number
  months: number
}

/** More than these a request has no places for. */
export const MOST_PHOTOS = 6

export const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday']

/** Reads the form of the business by itself. */
export function readBusinessForm(fields: FormFields): FormReading<BusinessSettings> {
  const business = fields.group('business')
  const settings = { country: readCountry(business), photos: readPhotoLimits(business) }
  return fields.reading({ ...readBusinessFacts(fields), ...settings })
}

function readPhotoLimits(business: FormFields): PhotoLimits {
  const read = (name: string, what: string, least: number, most: number) => {
    const outside = `Give ${what}, from ${least} to ${most.toLocaleString('en-US')}.`
    return business.wholeNumber(name, { least, most, missing: outside, outside }) ?? least
  }
  return {
    each: read('photosEach', 'how many photos a homeowner can send', 0, MOST_PHOTOS),
    megabytes: read('photosMegabytes', 'how many megabytes all photos can take up', 10, 100_000),
    months: read('photosMonths', 'after how many months photos are deleted', 1, 60),
  }
}

/** Reads the fields `business.…` and the ticks `workingDays[]` of a form that may hold more. */
export function readBusinessFacts(fields: FormFields): BusinessFacts {
  const business = fields.group('business')
  return {
    name: readLine(business, 'name', 100, 'the business name'),
    phone: readPhone(business),
    email: readEmail(business, 'email', 'for homeowners'),
    timeZone: readTimeZone(business),
    laborHoursADay: readHoursADay(business),
    quoteHoldsDays: readDays(business, 'quoteHoldsDays', 365, 'how many days a quote is good for'),
    answerWithinDays: readDays(
      business,
      'answerWithinDays',
      30,
      'how many work days you take to answer a request',
    ),
    workingDays: readWorkingDays(fields),
  }
}

/** A line of text that must be there. */
export function readLine(fields: FormFields, name: string, most: number, what: string): string {
  return fields.line(name, {
    most,
    missing: `Give ${what}.`,
    tooLong: `That’s longer than ${most} characters.`,
  })
}

/** An email address that must be there, as typed. */
export function readEmail(fields: FormFields, name: string, what: string): string {
  const email = fields.text(name)
  if (!isEmailAddress(email)) fields.fault(name, `Give an email ${what}, such as name@example.org.`)
  return email
}

function readPhone(business: FormFields): string {
  const typed = business.text('phone')
  if (typed !== '' && typed.replace(/\D/g, '').length < 5)
    business.fault('phone', 'Give the phone number people call, with its digits.')
  return readLine(business, 'phone', 40, 'the phone number people call')
}

function readTimeZone(business: FormFields): string {
  const timeZone = business.text('timeZone')
  if (timeZone.length > 60 || !isTimeZone(timeZone))
    business.fault('timeZone', 'Pick the time zone you work in.')
  return timeZone
}

function readCountry(business: FormFields): Country {
  const codes = Object.keys(COUNTRIES) as Country[]
  return business.choice('country', codes, 'Pick the country you work in.') ?? 'ZZ'
}

function readHoursADay(business: FormFields): string {
  const hours = business.figure('laborHoursADay', {
    places: 2,
    above: 0,
    most: 240,
    missing: 'Give the labor hours in a day.',
    outside: 'Give the labor hours in a day: more than 0, and 240 at most.',
  })
  return hours ?? '0'
}

function readDays(business: FormFields, name: string, most: number, what: string): number {
  const outside = `Give ${what}, from 1 to ${most}.`
  return business.wholeNumber(name, { least: 1, most, missing: `Give ${what}.`, outside }) ?? 0
}

function readWorkingDays(fields: FormFields): number[] {
  const days = [...new Set(fields.ticks('workingDays').map(Number))].filter(
    day => Number.isInteger(day) && day >= 1 && day <= 7,
  )
  if (days.length === 0) fields.fault('workingDays', 'Check at least one day.')
  return days.sort()
}
