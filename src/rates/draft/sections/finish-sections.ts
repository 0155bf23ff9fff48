import type { z } from 'zod'
import type { Finish, RateTable } from '../../../estimate/table/rate-table.ts'
import { ownRows, partAt, type Row } from '../../../estimate/table/rows.ts'
import { costedAs, rateUnit, soldLacks } from '../../../estimate/table/sold.ts'
import { withSigns } from '../../../estimate/units/unit-of.ts'
import { unitSystem } from '../../../estimate/units/units.ts'
import { choice } from '../entries.ts'
import { blocksOf, formField } from '../figure-fields.ts'
import type { FormField, Section } from '../section.ts'
import { withOwnCautions } from './caution-section.ts'
import { layerFields, withLayers } from './layer-fields.ts'
import { listOfThings } from './things.ts'

const LEAST_SUBSTITUTES = 3

/** One more to pick than there are, so that another can be added. */
function substitutes({ path, label, meaning }: Row, finish: Finish, { finishes }: RateTable): FormField[] {
  const others = finishes.filter(one => one.slug !== finish.slug)
  const places = Math.min(others.length, Math.max(LEAST_SUBSTITUTES, finish.substitutes.length + 1))
  const one = choice(['', 'none'], ...others.map(({ slug, name }): [string, string] => [slug, name.en]))
  return Array.from({ length: places }, (_, place): FormField => {
    const field = { path: `${path}.${place}`, label: `${label} ${place + 1}`, entry: one }
    return place === 0 && meaning ? { ...field, hint: meaning } : field
  })
}

/** A pair of rates for each size of job. */
function ratesFor(finish: Finish, table: RateTable, pair: Row[]): Row[] {
  return ['', ...table.tiers].flatMap((from, column) =>
    pair.map(row => ({
      ...row,
      unit: row.unit!.replace('{sold}', rateUnit(finish, table)),
      path: `rates.${column}.${row.path}`,
      label: from ? row.label.replace(',', ` for jobs from ${from} {bulk},`) : row.label,
    })),
  )
}

/** The list of finishes, and a form for each of them. */
export function finishSections(table: RateTable, figures: z.ZodObject): Section[] {
  return [
    listOfThings({
      key: 'finishes',
      list: 'finishes',
      one: 'Finish',
      title: 'Finishes: which ones, and in what order',
      adds: 'Homeowners pick from these, in this order.',
      table,
      entry: partAt(figures, 'finishes.*'),
    }),
    ...table.finishes.map((finish, index) => finishSection(finish, index, table, figures)),
  ]
}

function finishSection(finish: Finish, index: number, table: RateTable, figures: z.ZodObject): Section {
  const { depth, offered, soldOut } = finish
  const entry = partAt(figures, 'finishes.*')
  const rates = ratesFor(finish, table, ownRows(partAt(entry, 'rates.*')))
  const rows = ownRows(entry).flatMap(row => (row.path === 'pricedBy' ? [row, ...rates] : [row]))
  const fieldsOf = (row: Row) => {
    if (row.kind === 'layers') return layerFields(row, finish, table)
    return row.kind === 'slugs' ? substitutes(row, finish, table) : formField(row)
  }
  return {
    key: `finish.${finish.slug}`,
    title: finish.name.en,
    holds: `${depth.least} to ${depth.greatest} ${unitSystem(table.units).depth} deep; priced ${finish.pricedBy === 'rate' ? 'by your rates' : 'from what it costs you'}${offered ? '' : '; not shown to homeowners'}${soldOut ? '; sold out' : ''}`,
    adds: 'Its names, color, depths, weights, and rates, what lies beneath it, and whether homeowners can pick it.',
    base: `finishes.${index}`,
    under: true,
    parts: withOwnCautions(blocksOf(rows, fieldsOf), table),
    elsewhere: {
      path: `photo/${finish.slug}`,
      words: finish.photo === null ? 'Add a photo' : 'Photo',
    },
    close: (changed, _typed, fault) => {
      refuseSameRates(finish, changed.finishes[index]!, table, fault)
      refuseSameCost(finish, changed.finishes[index]!, table, fault)
      return withLayers(withPicked(changed, index, fault), index, fault)
    },
  }
}

// The same of what it costs.
function refuseSameCost(
  before: Finish,
  after: Finish,
  table: RateTable,
  fault: (name: string, message: string) => void,
): void {
  if (soldLacks(after).length > 0 || after.materialCost === null || after.packs.length > 0) return
  const [was, is] = [before, after].map(one => withSigns(rateUnit(costedAs(one), table)))
  if (was === is || before.materialCost !== after.materialCost) return
  fault('materialCostPer', `The cost above is still that of one ${was}. Type what one ${is} costs you.`)
}

// Rates for another unit that were left as they are would be another price than anybody meant.
function refuseSameRates(
  before: Finish,
  after: Finish,
  table: RateTable,
  fault: (name: string, message: string) => void,
): void {
  if (soldLacks(after).length > 0 || after.pricedBy === 'cost') return
  const [was, is] = [rateUnit(before, table), rateUnit(after, table)].map(withSigns)
  if (was === is || JSON.stringify(before.rates) !== JSON.stringify(after.rates)) return
  fault('ratesPer', `The rates above are still those per ${was}. Type what you charge per ${is}.`)
}

/** The substitutes that were picked, without the places that were left empty. */
function withPicked(
  table: RateTable,
  index: number,
  fault: (name: string, message: string) => void,
): RateTable {
  const picked: (string | null)[] = table.finishes[index]!.substitutes
  picked.forEach((slug, place) => {
    if (slug !== null && picked.indexOf(slug) !== place)
      fault(`substitutes.${place}`, 'You already picked that one above.')
  })
  const substitutes = picked.filter(slug => slug !== null)
  return {
    ...table,
    finishes: table.finishes.map((one, at) => (at === index ? { ...one, substitutes } : one)),
  }
}
