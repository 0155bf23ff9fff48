import { expect, test } from 'vitest'
import { z } from 'zod'
import { completeTable } from '../../../src/estimate/table/complete-table.ts'
import { finish } from '../../../src/estimate/table/finish.ts'
import { packKinds } from '../../../src/estimate/table/pack.ts'
import { type RateTable, rateFigures } from '../../../src/estimate/table/rate-table.ts'
import { rateTableSchema, withRules } from '../../../src/estimate/table/rate-table-schema.ts'
import { COMMON, figure, INVENTED, shareOrNone } from '../../../src/estimate/table/row.ts'
import { startOf } from '../../../src/estimate/table/values.ts'
import { labor } from '../../../src/estimate/table/work-figures.ts'
import { allFiles, filesFor } from '../../../src/rates/csv/all-files.ts'
import { differenceOf } from '../../../src/rates/csv/difference.ts'
import { filesOf, guideOf } from '../../../src/rates/csv/files-of.ts'
import { readFiles } from '../../../src/rates/csv/read-files.ts'
import { readSection, sectionValues } from '../../../src/rates/draft/section-form.ts'
import { viewSection } from '../../../src/rates/draft/section-view.ts'
import { sectionGroups } from '../../../src/rates/draft/sections-of.ts'
import { unconfirmedGroups } from '../../../src/rates/start/start-figures.ts'
import { keptTables } from '../../estimate/kept-formats.ts'
import { printFigures } from '../../house/figures.ts'
import { fullTable } from '../csv/tables.ts'

// Three figures that there aren't: of the table, of every finish, of one kind of pack. All that is known of them is these rows.
const watering = figure('watering in', 'Watering in, once a job', {
  section: 'labour',
  heading: 'Around the job',
  unit: 'h',
  meaning: 'With the hose that is there.',
  before: '0',
  start: '0.25',
  source: INVENTED,
})
const settling = shareOrNone('settling', 'How much it settles in a year', {
  heading: 'As a material',
  start: '0.2',
  source: COMMON,
})
const deposit = figure('deposit', 'Deposit on a bag', { unit: '{money}', before: '0', secret: true })
const { bag, bale, bulk, weighed } = packKinds
const packs = z.array(z.discriminatedUnion('kind', [bag.extend({ deposit }), bale, bulk, weighed]))
const figures = rateFigures.extend({
  labor: labor.extend({ watering }),
  finishes: z.array(finish.extend({ settling, packs })),
})
const files = filesFor(figures)

type More = z.infer<typeof figures>

function table(): More {
  const full = fullTable()
  const finishes = full.finishes.map((one, index) => ({
    ...one,
    settling: index === 0 ? '0.15' : null,
    packs: one.packs.map(pack => (pack.kind === 'bag' ? { ...pack, deposit: '0.50' } : pack)),
  }))
  return { ...full, labor: { ...full.labor, watering: '0.25' }, finishes }
}

function sectionOf(key: string) {
  const sections = sectionGroups(table(), figures).flatMap(group => group.sections)
  return sections.find(section => section.key === key)!
}

const HEADINGS: Record<string, string | null> = {
  labour: 'Around the job',
  'finish.shredded-wood': 'As a material',
  'finish-packs.shredded-wood': null,
}

test.each([
  ['labour', 'labor.watering', '0.25', '0.5', { label: 'Watering in, once a job', suffix: 'h' }],
  ['finish.shredded-wood', 'settling', '15', '12.5', { label: 'How much it settles in a year', suffix: '%' }],
  [
    'finish-packs.shredded-wood',
    'packs.0.deposit',
    '0.50',
    '0.6',
    { label: 'Deposit on a bag', suffix: 'USD' },
  ],
])('is asked for in the form of %s, under its heading', (key, name, shown, typed, view) => {
  const section = sectionOf(key)
  const values = sectionValues(section, table())
  expect(values[name]).toBe(shown)
  const blocks = viewSection(section, table(), values, { again: false }).blocks
  const block = blocks.find(({ fields }) => fields.some(field => field.name === name))!
  expect(block.heading).toBe(HEADINGS[key])
  expect(block.fields.find(field => field.name === name)).toMatchObject({ ...view, figure: true })
  const read = readSection(section, table(), { ...values, [name]: typed }, withRules(figures))
  expect(read.ok && differenceOf(table(), read.values, files)).toHaveLength(1)
})

test('is in the file, with its unit and meaning, and comes back from there', () => {
  const written = filesOf(table(), files)
  expect(written['settings.csv']).toContain(
    'watering in,0.25,h,"Around the job: watering in, once a job. With the hose that is there."',
  )
  const { parts, faults } = readFiles(written, files)
  expect(faults).toEqual([])
  expect(parts.body).toEqual(table())
  expect(guideOf(table(), files)).toContainEqual({
    file: 'finishes.csv',
    column: 'settling',
    unit: 'share',
    meaning: 'As a material: how much it settles in a year. Empty: not known.',
  })
  expect(written['packs.csv']).toMatch(/,holds,wet weight,deposit,covers,/)
})

test('is in the difference, in words', () => {
  const before = table()
  const [first, ...rest] = before.finishes
  const after = {
    ...before,
    labor: { ...before.labor, watering: '0.5' },
    finishes: [{ ...first!, settling: '0.1' }, ...rest],
  }
  expect(differenceOf(before, after, files)).toEqual([
    { where: 'watering in', before: '0.25 h', after: '0.5 h' },
    { where: 'Shredded wood, settling', before: '15%', after: '10%' },
  ])
})

test('is listed until it was looked at, as long as it is what it started as', () => {
  const listed = (of: RateTable) =>
    unconfirmedGroups(of, figures)
      .flatMap(group => group.figures)
      .find(({ key }) => key === 'labor.watering')
  expect(listed(table())).toMatchObject({
    label: 'Watering in, once a job',
    words: '0.25 h',
    source: INVENTED,
    section: 'labour',
  })
  expect(listed({ ...table(), labor: { ...table().labor, watering: '0.3' } } as RateTable)).toBeUndefined()
})

test('is held to what it may be, and a new table starts with it', () => {
  const check = (watering: string) =>
    withRules(figures).safeParse({ ...table(), labor: { ...table().labor, watering } }).error?.issues[0]?.path
  expect(check('0.5')).toBeUndefined()
  expect(check('much')).toEqual(['labor', 'watering'])
  expect(startOf(figures, 'metric')).toMatchObject({ labor: { watering: '0.25' } })
})

test('is in the documentation', () => {
  expect(printFigures(figures)).toContain(
    '| `labor.watering` | Around the job: watering in, once a job. With the hose that is there. | h | 0.25 | Invented, to start with |',
  )
  expect(printFigures(figures)).toContain('| `finishes.*.settling` |')
})

test.each(keptTables())(
  'a table of format $format, $about, has what its row says that tables had before it',
  ({ table: stored }) => {
    const now = completeTable(stored, figures) as More
    expect(now.labor.watering).toBe('0')
    expect(now.finishes.map(({ settling }) => settling)).toEqual(now.finishes.map(() => null))
    const bags = now.finishes.flatMap(one => one.packs.filter(({ kind }) => kind === 'bag'))
    for (const one of bags) expect(one).toMatchObject({ deposit: '0' })
  },
)

test('leaves nothing behind', () => {
  expect(rateTableSchema.parse(table())).toEqual(fullTable())
  expect(filesOf(fullTable(), allFiles)['settings.csv']).not.toContain('watering')
})
