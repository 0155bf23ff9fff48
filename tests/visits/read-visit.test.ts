import { describe, expect, it } from 'vitest'
import { FormFields } from '../../src/http/form-fields.ts'
import { readVisit } from '../../src/visits/visit-form.ts'

const NOW = Temporal.Instant.from('2026-03-02T15:00:00Z')
const CHICAGO = 'America/Chicago'

function startOf(date: string, time: string, zone = CHICAGO, now = NOW): string {
  const reading = readVisit(new FormFields({ 'visit.date': date, 'visit.time': time }), zone, now)
  if (!reading.ok) throw new Error(JSON.stringify(reading.errors))
  return reading.values.startsAt.toString()
}

function faultOf(date: string, time: string, zone = CHICAGO, now = NOW): Record<string, string> {
  const reading = readVisit(new FormFields({ 'visit.date': date, 'visit.time': time }), zone, now)
  return reading.ok ? {} : reading.errors
}

describe('reading when a visit is to be', () => {
  it('takes the time as it is where the business is', () => {
    expect(startOf('2026-03-05', '09:00')).toBe('2026-03-05T15:00:00Z')
    expect(startOf('2026-06-05', '09:00')).toBe('2026-06-05T14:00:00Z')
    expect(startOf('2026-03-05', '09:00', 'Pacific/Auckland')).toBe('2026-03-04T20:00:00Z')
  })

  it.each([
    ['9:00', '15:00:00'],
    ['2:30 pm', '20:30:00'],
    ['12:15 am', '06:15:00'],
    ['14.30', '20:30:00'],
  ])('reads the time %s as people write it', (typed, utc) => {
    expect(startOf('2026-03-05', typed)).toBe(`2026-03-05T${utc}Z`)
  })

  it('refuses what is missing or no date and time', () => {
    expect(Object.keys(faultOf('', ''))).toEqual(['visit.date', 'visit.time'])
    expect(Object.keys(faultOf('2026-02-30', '25:00'))).toEqual(['visit.date', 'visit.time'])
    expect(Object.keys(faultOf('2026-03-05', '13:00 pm'))).toEqual(['visit.time'])
  })

  it('refuses a time that has passed, on the day itself beside the time', () => {
    expect(Object.keys(faultOf('2026-03-01', '09:00'))).toEqual(['visit.date'])
    expect(Object.keys(faultOf('2026-03-02', '09:00'))).toEqual(['visit.time'])
    expect(startOf('2026-03-02', '09:01')).toBe('2026-03-02T15:01:00Z')
  })

  it('refuses an hour that the change to summer time leaves out, and takes the first of one that comes twice', () => {
    expect(faultOf('2026-03-08', '02:30')['visit.time']).toContain('skip that hour')
    expect(startOf('2026-03-08', '03:00')).toBe('2026-03-08T08:00:00Z')
    expect(startOf('2026-11-01', '01:30')).toBe('2026-11-01T06:30:00Z')
  })

  it('asks again when the year looks wrong, and knows 29 February', () => {
    expect(Object.keys(faultOf('2036-03-05', '09:00'))).toEqual(['visit.date'])
    const now = Temporal.Instant.from('2028-02-01T12:00:00Z')
    expect(startOf('2028-02-29', '09:00', CHICAGO, now)).toBe('2028-02-29T15:00:00Z')
  })
})
