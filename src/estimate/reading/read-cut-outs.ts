import { Decimal } from '../../lib/decimal.ts'
import type { CutOut } from '../job/bed.ts'
import { cutOutArea } from '../job/cut-outs.ts'
import type { Size } from '../shapes/sizes.ts'
import type { RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import type { Understood } from './measure.ts'
import type { Reader } from './reader.ts'
import { asTyped, type ReadingNotes } from './told-fields.ts'
import { LONGEST_TYPED } from './typed.ts'

const MOST_PARTS = 40
const MOST_OF_ONE = 99

interface Part {
  cutOut: CutOut
  echo: string
  /** Itself, spelled so that it means the other thing that it may mean, where it does. */
  spelling: string
  isDoubtful: boolean
}

/** The text that cut-outs were told in: an array from another program is joined to one. */
function cutOutsText(told: unknown): string {
  if (told === undefined || told === null) return ''
  const parts = Array.isArray(told) ? told : [told]
  return parts.map(part => asTyped(part)?.trim() ?? '?').join('; ')
}

/**
 * Reads what is cut out of a bed: '4 x 3 ft; 3 of 2 ft across; 10 sq ft', parted by semicolons or lines, or by commas
 * where a part can't be read otherwise. A single length is a circle's diameter.
 */
export function readCutOuts(told: unknown, field: string, table: RateTable, found: ReadingNotes): CutOut[] {
  const parts: Part[] = []
  for (const part of readParts(cutOutsText(told), found.reader, table)) {
    if (parts.length === MOST_PARTS) {
      found.fault(field, 'fault.cut-outs-many', { most: String(MOST_PARTS) })
      break
    }
    if (typeof part === 'string') {
      found.fault(field, 'fault.cut-outs', { typed: part.slice(0, LONGEST_TYPED / 5) })
      return []
    }
    parts.push(part)
  }
  if (parts.length === 0) return []
  found.echoes[field] = `= ${parts.map(part => part.echo).join('; ')}`
  if (parts.some(part => part.isDoubtful))
    found.instead[field] = [parts.map(part => part.spelling).join('; ')]
  return parts.map(part => part.cutOut)
}

/** Refuses cut-outs as large as the bed; `areaOf` gives the outline's, in ft²|m². */
export function refuseLarge(
  cutOuts: CutOut[],
  field: string,
  areaOf: () => Decimal | null,
  found: ReadingNotes,
): void {
  const area = cutOuts.length > 0 ? areaOf() : null
  // Nothing would be left to dress, and a share too small to tell from nothing has no error that could be told.
  if (area && cutOutArea(cutOuts).gte(area.times('0.999999'))) found.fault(field, 'fault.cut-outs-large')
}

/** What each part says; the text itself where it can't be read. One after the other, as whoever asks may have had enough. */
function* readParts(text: string, reader: Reader, table: RateTable): Generator<Part | string> {
  for (const part of partsOf(text, /[;\n]/)) {
    const whole = readPart(part, reader, table)
    if (whole || !part.includes(',')) yield whole ?? part
    else
      for (const one of partsOf(part, /,\s/.test(part) ? /,\s+/ : ','))
        yield readPart(one, reader, table) ?? one
  }
}

function partsOf(text: string, joint: RegExp | string): string[] {
  return text
    .split(joint)
    .map(part => part.trim())
    .filter(part => part !== '')
}

const circular = /^(?:ø|⌀|diamet(?:er|ro)|circle|circulo)(?: (?:of|de))? ?/
const counted = /^(\d{1,4}) ?(?:of|de|@) ?(?=\S)/
const square = /\bsq|\^2|(?:ft|feet|foot|yd|m|pies?)2(?!\d)|cuadrad|\bsf\b|\bacres?\b/

function readPart(typed: string, reader: Reader, table: RateTable): Part | null {
  if (typed.length > LONGEST_TYPED) return null
  const text = reader.plain(typed)
  const unended = text.replace(reader.across, '').trim()
  const [start = '', many] = counted.exec(unended) ?? []
  const single = unended.slice(start.length)
  const measure = single.replace(circular, '')
  const count = many === undefined ? 1 : Number(many)
  if (count < 1 || count > MOST_OF_ONE) return null
  const round = unended !== text || measure !== single
  const part = square.test(measure) ? readPlain(measure, reader, table) : readSides(measure, reader, table)
  if (!part || (round && part.cutOut.shape !== 'circle')) return null
  const echo = count === 1 ? part.echo : `${count} × (${part.echo})`
  const other = part.instead?.[0]
  const spelling = other === undefined ? text : `${start}${other}`
  return { cutOut: { ...part.cutOut, count }, echo, spelling, isDoubtful: other !== undefined }
}

type ReadOnce = Pick<Part, 'cutOut' | 'echo'> & { instead?: string[] }

function readPlain(typed: string, reader: Reader, table: RateTable): ReadOnce | null {
  const reading = reader.area(typed, unitSystem(table.units))
  if (!reading.ok) return null
  const cutOut: CutOut = { shape: 'area', sizes: { area: sizeOf(reading) }, count: 1 }
  return { cutOut, echo: echoOf(reading), instead: reading.instead }
}

function readSides(typed: string, reader: Reader, table: RateTable): ReadOnce | null {
  const reading = reader.length(typed, unitSystem(table.units), new Decimal(table.pace))
  if (!reading.ok) return null
  const first = sizeOf(reading)
  if (!reading.second) {
    const circle: CutOut = { shape: 'circle', sizes: { diameter: first }, count: 1 }
    return { cutOut: circle, echo: `⌀ ${echoOf(reading)}`, instead: reading.instead }
  }
  const about = reading.secondAbout ?? reading.about
  const width = { ...first, value: reading.second, spread: null, about }
  const cutOut: CutOut = { shape: 'rectangle', sizes: { length: first, width }, count: 1 }
  return { cutOut, echo: echoOf(reading), instead: reading.instead }
}

function sizeOf({ value, spread, about, paced }: Understood): Size {
  return { value, spread, about, paced }
}

function echoOf({ echo }: Understood): string {
  return echo.replace(/^= /, '')
}
