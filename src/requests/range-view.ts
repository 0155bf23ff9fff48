import { drawRange } from '../drawing/range-bar.ts'
import type { Ballpark } from '../estimate/ballpark/ballpark.ts'
import { type CautionCode, isBuiltIn } from '../estimate/table/caution.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { travelCharge } from '../estimate/table/travel.ts'
import { taxName } from '../estimate/tax/tax-name.ts'
import { type UnitName, unitSystem } from '../estimate/units/units.ts'
import { t } from '../language/catalogue.ts'
import { cautionInWords, sourceInWords } from '../language/caution-in-words.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { quantityInWords, shareInWords } from '../language/quantity-in-words.ts'
import { soldInWords } from '../language/sold-in-words.ts'
import { Decimal } from '../lib/decimal.ts'

/** A ballpark as a page shows it, in words of the page's language. */
export interface RangeView {
  low: string
  likely: string
  high: string
  /** '$620 to $810', or the one price where there is no range. */
  figure: string
  /** '$620 to $810, most likely $700', or the one price where there is no range. */
  words: string
  drawing: string
  /** How sure the range is, or that the minimum decides. */
  meaning: string
  /** What is in it, one line each. */
  holds: string[]
  /** What isn't in it. */
  leavesOut: string[]
  /** That new beds would be taxed otherwise with a certificate; null where they wouldn't. */
  taxNote: string | null
  narrower: string | null
  /** Warnings: of these very beds and this place, and of such work in general. */
  cautions: Caution[]
  generalCautions: Caution[]
}

type Caution = { text: string; source: string }

// A tenth of these would feign a sureness that a ballpark hasn't.
const WHOLE: UnitName[] = ['bale', 'ft2', 'm2']

// What the owner adds is of such work in general too.
const GENERAL: CautionCode[] = ['fire', 'clearance', 'trunks', 'payload', 'digging', 'pile', 'weed-killer']
const isGeneral = (code: string) => !isBuiltIn(code) || GENERAL.includes(code)

/** What was told beside the beds. */
export interface ToldBeside {
  extras: string[]
  postcode: string
}

/**
 * Words and the bar for a ballpark worked out with `table`. `bedNumber` gives the number, from 1, by which the page
 * calls the bed of an index.
 */
export function viewRange(
  ballpark: Ballpark,
  told: ToldBeside,
  table: RateTable,
  language: Language,
  bedNumber: (index: number) => number = index => index + 1,
): RangeView {
  // To the whole dollar: cents would feign a sureness that a ballpark hasn't.
  const money = (amount: string) =>
    moneyInWords(new Decimal(amount).toFixed(0), ballpark.range.currency, language, { whole: true })
  const [low, likely, high] = [
    money(ballpark.range.low),
    money(ballpark.range.likely),
    money(ballpark.range.high),
  ]
  const words =
    low === high ? t(language, 'range.one', { likely }) : t(language, 'range.words', { low, likely, high })
  const meaning = ballpark.minimumDecides
    ? t(language, 'range.minimum', { minimum: likely })
    : t(language, 'range.promise', { of: tenths(table.promise) })
  return {
    low,
    likely,
    high,
    figure: low === high ? likely : t(language, 'range.figure', { low, high }),
    words,
    drawing: drawRange({
      low: Number(ballpark.range.low),
      likely: Number(ballpark.range.likely),
      high: Number(ballpark.range.high),
      labels: { low, likely, high },
      title: words,
      id: 'range-bar',
    }),
    meaning,
    ...whatIsIn(ballpark, told, table, language, money),
    taxNote: ballpark.tax?.certificate ? t(language, 'range.tax-certificate') : null,
    narrower: narrowerInWords(ballpark, language, money, bedNumber),
    cautions: cautionsIn(ballpark, table, language, code => !isGeneral(code)),
    generalCautions: cautionsIn(ballpark, table, language, isGeneral),
  }
}

function cautionsIn(
  { cautions }: Ballpark,
  table: RateTable,
  language: Language,
  wanted: (code: string) => boolean,
) {
  return cautions
    .filter(({ code }) => wanted(code))
    .map(caution => ({
      text: cautionInWords(caution, table, language),
      source: sourceInWords(caution.source, language),
    }))
}

function whatIsIn(
  ballpark: Ballpark,
  told: ToldBeside,
  table: RateTable,
  language: Language,
  money: (amount: string) => string,
) {
  const isIn = ({ slug }: { slug: string }) => told.extras.includes(slug) || ballpark.beneath?.includes(slug)
  const extras = table.extras.filter(isIn)
  const charge = travelCharge(told.postcode, table)
  const travels = table.travel.some(area => new Decimal(area.charge).gt(0))
  const holds = materialsInWords(ballpark, table, language)
  for (const extra of extras) holds.push(extra.name[language])
  if (charge && new Decimal(charge).gt(0)) {
    holds.push(t(language, 'range.holds-travel', { charge: money(charge), postcode: told.postcode }))
  }
  const taxes = taxesInWords(ballpark, table, language)
  if (ballpark.tax?.inRange) holds.push(...taxes)
  const unsaid = taxes.length > 0 ? taxes : [t(language, 'range.leaves-tax')]
  const leavesOut = ballpark.tax?.inRange ? [] : unsaid
  if (travels && told.postcode === '') leavesOut.push(t(language, 'range.leaves-travel'))
  return { holds, leavesOut }
}

// Ballparks of before there were taxes say nothing of one.
function taxesInWords({ tax }: Ballpark, table: RateTable, language: Language): string[] {
  if (!tax || table.tax === null) return []
  const own = taxName(tax.newWork && table.tax.newWork.name.en !== null ? 'new' : null, table)
  const taxes = [
    { name: own, rate: tax.rate },
    { name: taxName('second', table), rate: tax.second ?? '0' },
  ]
  return taxes
    .filter(({ rate }) => Number(rate) > 0)
    .map(({ name, rate }) =>
      t(language, 'range.tax', { tax: name[language], rate: shareInWords(rate, language) }),
    )
}

// In one sum where all of it is sold by its volume, or nothing else was kept; else each material in its own unit.
function materialsInWords(ballpark: Ballpark, table: RateTable, language: Language): string[] {
  const { area: unit, bulk, volumesPerBulk } = unitSystem(table.units)
  const area = quantityInWords(ballpark.area.value, unit, language, 0)
  const materials = ballpark.materials ?? []
  if (materials.every(({ amount }) => amount.unit === bulk)) {
    const volume = new Decimal(ballpark.inPlace.value).div(volumesPerBulk).toFixed(4)
    const words = quantityInWords(volume, bulk, language, 1)
    return [t(language, 'range.holds-beds', { area, volume: words })]
  }
  const each = materials.map(({ finish: slug, amount }) => {
    const finish = table.finishes.find(one => one.slug === slug)
    const decimals = new Decimal(amount.value).lt(1) ? 2 : WHOLE.includes(amount.unit) ? 0 : 1
    const words = soldInWords(amount, finish, table, language, decimals)
    return t(language, 'range.holds-material', { finish: finish?.name[language] ?? slug, amount: words })
  })
  return [...each, t(language, 'range.holds-area', { area })]
}

function narrowerInWords(
  { narrower }: Ballpark,
  language: Language,
  money: (amount: string) => string,
  bedNumber: (index: number) => number,
): string | null {
  if (!narrower) return null
  const { what, bed, low, high } = narrower
  if (what === 'visit' || bed === null || low === null || high === null)
    return t(language, 'range.narrower-visit')
  return t(language, `range.narrower-${what}`, {
    bed: bedNumber(bed),
    low: money(low),
    high: money(high),
  })
}

function tenths(promise: string): string {
  return new Decimal(promise).times(10).toDecimalPlaces(1).toString()
}
