import { isDeepStrictEqual } from 'node:util'
import { describe, expect, it } from 'vitest'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../../src/estimate/table/rate-table-schema.ts'
import { once } from '../../../src/lib/once.ts'
import { differenceOf } from '../../../src/rates/csv/difference.ts'
import type { Section } from '../../../src/rates/draft/section.ts'
import { readSection, sectionValues } from '../../../src/rates/draft/section-form.ts'
import { sectionGroups } from '../../../src/rates/draft/sections-of.ts'
import { changedAt, type Leaf, leavesOf, othersThan } from '../csv/leaves.ts'
import { fullTable } from '../csv/tables.ts'

const sectionsOf = (table: RateTable) => sectionGroups(table).flatMap(({ sections }) => sections)
const sectionsByKey = once((table: RateTable) => new Map(sectionsOf(table).map(one => [one.key, one])))

/** What a section's form makes of a table when it is sent as it was shown for another. */
function through(section: Section, shown: RateTable, table: RateTable) {
  return readSection(sectionsByKey(table).get(section.key)!, table, sectionValues(section, shown))
}

describe('the forms of the draft', () => {
  it('give back the table when they are sent as they were shown', () => {
    const table = fullTable()
    for (const section of sectionsOf(table)) {
      const { key } = section
      const read = through(section, table, table)
      expect({ key, read: read.ok ? differenceOf(table, read.values) : read.errors }).toEqual({
        key,
        read: [],
      })
    }
  })

  // These are given when a finish, an extra, a pack or a caution is made, and the business is set up in units and a currency.
  const settled = /^(units|currency)$|\.slug$|\.kind$|\.code$/
  // It is uploaded on a page of its own: photo.test.ts.
  const uploaded = /^finishes\.\d+\.photo$/

  it('carry every figure of a rate table between them', () => {
    const table = wholeTable()
    const leaves = leavesOf(table).filter(
      ({ path }) => ![settled, uploaded].some(rule => rule.test(path.join('.'))),
    )
    expect(leaves.length).toBeGreaterThan(250)
    const anywhere = ({ path }: Leaf) => path.map(step => (/^\d+$/.test(step) ? '*' : step)).join('.')
    const carried = new Set<string>()
    for (const leaf of leaves) {
      const changed = soundChange(table, leaf)
      if (!changed) continue
      expect({ path: leaf.path.join('.'), carried: isCarried(changed, table, leaf) }).toMatchObject({
        carried: true,
      })
      carried.add(anywhere(leaf))
    }
    expect(leaves.map(anywhere).filter(path => !carried.has(path))).toEqual([])
  })
})

/** A full table in which every figure can be another by itself. */
function wholeTable(): RateTable {
  const table = fullTable()
  const wide = { lower: '0.4', upper: '0.6' }
  table.labor = { ...table.labor, trip: wide, setUp: wide }
  for (const pack of table.extras[0]!.packs) pack.prices.push({ from: '20', each: '5' })
  const words = { en: 'As we say it', es: 'Como decimos' }
  table.cautions = table.cautions.slice(0, 2).map(one => ({ ...one, words }))
  return rateTableSchema.parse(table)
}

function isCarried(changed: RateTable, table: RateTable, { path }: Leaf): boolean {
  const ofThing = path[0] === 'finishes' || path[0] === 'extras' ? `${path[0]}.${path[1]}` : ''
  return sectionsOf(changed).some(section => {
    // A form that shows the same can't carry it, and reading one takes a while.
    if (section.base !== ofThing || shownAlike(section, changed, table)) return false
    const read = through(section, changed, table)
    return read.ok && differenceOf(inOrder(read.values), inOrder(changed)).length === 0
  })
}

function shownAlike(section: Section, changed: RateTable, table: RateTable): boolean {
  const own = sectionsByKey(table).get(section.key)!
  return isDeepStrictEqual(sectionValues(section, changed), sectionValues(own, table))
}

/** Which cautions go with a finish is what is ticked; their order stays as it was. */
function inOrder(table: RateTable): RateTable {
  const copy = structuredClone(table)
  for (const thing of [...copy.finishes, ...copy.extras]) thing.cautions.sort()
  return copy
}

/** The table with another value of the same sort at a leaf, of those that the schema takes. */
function soundChange(table: RateTable, leaf: Leaf): RateTable | undefined {
  const { path, value } = leaf
  const figure = /^\d+(\.\d+)?$/.test(String(value))
  const near = figure
    ? [1.001, 0.999, 1.1, 0.9].map(times => String(Number((Number(value) * times).toFixed(6))))
    : []
  const others = [...near, ...othersThan(value), '0.05', '0.5', '1', '#123456', ...WORDS]
  return others
    .filter(other => other !== value && !(figure && Number(other) === Number(value)))
    .map(other => changedAt(table, { path, value: other }))
    .find(changed => rateTableSchema.safeParse(changed).success)
}

const WORDS = [
  'cost',
  'rate',
  'dots',
  'area',
  'line',
  'with',
  'markup',
  'cocoa',
  'staff',
  'hour',
  'bag-2:delivered',
  'yes',
  'piece:collected',
  'compost',
  'sold',
  'apart',
]
