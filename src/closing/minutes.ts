const CLOCK = /^(\d{1,3}):([0-5]\d)$/
const HOURS = /^(?:\d{1,3}(?:[.,]\d{1,2})?|[.,]\d{1,2})\s*h?$/i
const MINUTES = /^(\d{1,4})\s*min(?:utes|utos)?$/i
const MOST = 60_000

/** Hours as they are typed, '3:30', '3.5', '3,5 h', '45 min', in whole minutes; null where they can't be read. */
export function readMinutes(typed: string): number | null {
  const text = typed.trim()
  const clock = CLOCK.exec(text)
  if (clock) return within(Number(clock[1]) * 60 + Number(clock[2]))
  const minutes = MINUTES.exec(text)
  if (minutes) return within(Number(minutes[1]))
  if (!HOURS.test(text)) return null
  return within(Math.round(Number(text.replace(/h/i, '').replace(',', '.').trim()) * 60))
}

function within(minutes: number): number | null {
  return minutes <= MOST ? minutes : null
}

/** '3:30'. */
export function minutesInWords(minutes: number): string {
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`
}
