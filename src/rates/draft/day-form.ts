const MOST_YEARS = 2

/** Reads the first day of a version, 'YYYY-MM-DD', from today on; nothing typed is today. */
export function readDay(typed: string, today: string): { day: string } | { fault: string } {
  if (typed.trim() === '') return { day: today }
  const day = asDay(typed.trim())
  if (day === null) return { fault: 'Give a day such as 2026-03-01.' }
  if (day < today) return { fault: 'Give today or a day to come.' }
  const last = Temporal.PlainDate.from(today).add({ years: MOST_YEARS }).toString()
  return day > last ? { fault: `Give a day within ${MOST_YEARS} years.` } : { day }
}

function asDay(typed: string): string | null {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(typed)) return null
  try {
    return Temporal.PlainDate.from(typed, { overflow: 'reject' }).toString()
  } catch {
    return null
  }
}
