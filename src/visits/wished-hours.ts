/** Hours of the day, from the first to before the last, and weekdays, Monday 1, that somebody asked for. */
export interface Wish {
  from: number
  to: number
  weekdays?: number[]
}

const PARTS: [RegExp, number, number][] = [
  [/\bmorning|\bmañana|\bantes de(l)? (medio ?d[ií]a|almuerzo)|\bbefore (noon|lunch)/, 0, 12],
  [/\bafternoon|\btarde|\bafter (noon|lunch)|\bdespu[ée]s de(l)? (medio ?d[ií]a|almuerzo)/, 12, 17],
  [/\bevening|\bafter work|\bnoche|\bdespu[ée]s del trabajo/, 16, 24],
]

const WEEKDAYS = [
  /\bmon(day)?s?\b|\blunes\b/,
  /\btue(s|sday|sdays)?\b|\bmartes\b/,
  /\bwed(s|nesday|nesdays)?\b|\bmi[ée]rcoles\b/,
  /\bthu(r|rs|rsday|rsdays)?\b|\bjueves\b/,
  /\bfri(day)?s?\b|\bviernes\b/,
  /\bsat(urday)?s?\b|\bs[áa]bados?\b/,
  /\bsun(day)?s?\b|\bdomingos?\b/,
]
const HOURS = [
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
]
const HORAS = [
  'una',
  'dos',
  'tres',
  'cuatro',
  'cinco',
  'seis',
  'siete',
  'ocho',
  'nueve',
  'diez',
  'once',
  'doce',
]
const CLOCK = new RegExp(
  `\\b(after|before|desde las?|despu[ée]s de las?|antes de las?)\\s+(\\d{1,2}|(?:${[...HOURS, ...HORAS].join('|')})\\b)(?::\\d\\d)?\\s*([ap])?\\.?\\s?m?`,
  'g',
)
/** An hour without a.m. or p.m. is meant in the day. */
const EARLIEST_IN_DAY = 7

/**
 * What free text about good times asks for, as far as it is plain: parts of the day, "after 4" or "after four", weekdays; undefined where
 * nothing is. It only decides which times come first, so what isn't read does no harm.
 */
export function wishesOf(text: string): Wish | undefined {
  const plain = text.toLowerCase()
  const isNot = /\bnot?\b|\bexcept|\bexcepto|\bmenos\b/.test(plain)
  if (isNot) return undefined
  const parts = PARTS.filter(([pattern]) => pattern.test(plain))
  let from = parts.length > 0 ? Math.min(...parts.map(([, start]) => start)) : 0
  let to = parts.length > 0 ? Math.max(...parts.map(([, , end]) => end)) : 24
  let isSaid = parts.length > 0
  for (const [, word, hours, half] of plain.matchAll(CLOCK)) {
    const hour = hourOf(numberOf(hours!), half)
    if (hour === undefined) continue
    isSaid = true
    if (word === 'before' || word?.startsWith('antes')) to = hour
    else from = hour
  }
  const named = WEEKDAYS.flatMap((pattern, index) => (pattern.test(plain) ? [index + 1] : []))
  if (/\bweekdays?\b|\bentre semana\b/.test(plain)) named.push(1, 2, 3, 4, 5)
  if (/\bweekends?\b|\bfin(es)? de semana\b/.test(plain)) named.push(6, 7)
  if (!isSaid && named.length === 0) return undefined
  return { from, to: to > from ? to : 24, ...(named.length > 0 && { weekdays: [...new Set(named)] }) }
}

function numberOf(typed: string): number {
  const inWords = Math.max(HOURS.indexOf(typed), HORAS.indexOf(typed)) + 1
  return inWords || Number(typed)
}

function hourOf(hour: number, half: string | undefined): number | undefined {
  if (hour > 24) return undefined
  if (half === 'p') return hour < 12 ? hour + 12 : hour
  if (half === 'a') return hour === 12 ? 0 : hour
  return hour < EARLIEST_IN_DAY ? hour + 12 : hour
}
