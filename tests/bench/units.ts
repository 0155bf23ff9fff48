import type { Around } from '../../src/http/render.ts'
import { readBedsForm, toldOf } from '../../src/requests/form.ts'
import { openTable } from '../../src/requests/open-table.ts'
import { unitsOfForm, unitsOfTold } from '../../src/requests/units.ts'
import { workings } from '../../src/requests/workings.ts'
import { costTable } from '../estimate/cost-priced.ts'
import { manyBeds, manyBedsTyped } from '../helpers/many-beds.ts'

/**
 * `node tests/bench/units.ts`: how long strangers' work takes beside what it is charged: a unit is to be about a
 * millisecond of one processor, dearer work rather over than under. The rates are of a table with packs and costs.
 */
const table = openTable(costTable())
const around: Around = {
  language: 'en',
  carriedLanguage: null,
  englishOnly: false,
  assets: { 'style.css': '/s', 'icon.svg': '/i', 'live.js': '/l' },
  business: {
    name: 'Fern Beds',
    phone: '(512) 555-0100',
    country: 'US',
    sites: [] as string[],
  } as Around['business'],
  account: null,
  pages: null,
  path: '/',
  demo: false,
  flash: null,
}
const contact = { name: '', phone: '', email: '', street: '', postcode: '', preferredTimes: '' }
const more = {
  contact: { ...contact, gate: '', dog: '', note: '' },
  submissionKey: '',
  begun: '',
  photos: null,
  errors: {},
}

// The first of them are measured as the last ones are: with the code compiled.
for (let time = 0; time < 100; time++) {
  const form = readBedsForm(manyBedsTyped(10), table)
  workings.form({ form, showFaults: false, carried: [], around }, table)
}

console.log('Milliseconds, beside the units that are charged')
for (const count of [1, 3, 10, 40]) {
  const fields = manyBedsTyped(count)
  // Reading the form is part of it.
  const form = () => readBedsForm(fields, table)
  report(`page of ${count} beds`, unitsOfForm(fields, 'form', table), () =>
    workings.form({ form: form(), showFaults: false, carried: [], around }, table),
  )
  report(`live part of ${count} beds`, unitsOfForm(fields, 'live', table), () =>
    workings.live({ form: form(), around }, table),
  )
  report(`who and where for ${count} beds`, unitsOfForm(fields, 'contact', table), () =>
    workings.contact({ ...more, form: form(), around }, table),
  )
  report(`sending ${count} beds in, and being asked again`, unitsOfForm(fields, 'taking', table), () => {
    workings.taking({ told: toldOf(form()) }, table)
    workings.contact({ ...more, form: form(), around }, table)
  })
  for (const narrower of [false, true]) {
    const body = { beds: manyBeds(count), narrower }
    report(
      `answer for ${count} beds${narrower ? ', and what would narrow it' : ''}`,
      unitsOfTold(body, table),
      () => workings.ballpark({ body, language: 'en' }, table),
    )
  }
}
const figures = Array.from({ length: 24 }, (_, index) => String(3.37 + (index % 5)))
const [bed] = manyBeds(1)
for (const [shape, sizes] of [
  ['radii', { radii: figures }],
  ['offsets', { spacing: '3', offsets: figures }],
] as const) {
  for (const narrower of [false, true]) {
    const body = { beds: Array.from({ length: 40 }, () => ({ ...bed, shape, sizes })), narrower }
    report(
      `${shape}, 960 figures${narrower ? ', and what would narrow it' : ''}`,
      unitsOfTold(body, table),
      () => workings.ballpark({ body, language: 'en' }, table),
    )
  }
}

// The least of some rounds: what else the machine does only adds.
function report(what: string, units: number, work: () => unknown): void {
  let least = Number.POSITIVE_INFINITY
  for (let round = 0; round < 15; round++) {
    const start = performance.now()
    for (let time = 0; time < 3; time++) work()
    least = Math.min(least, (performance.now() - start) / 3)
  }
  const share = (least / units).toFixed(2).padStart(6)
  console.log(
    `  ${what.padEnd(52)} ${least.toFixed(2).padStart(7)} ms ${units.toFixed(1).padStart(7)} ${share}`,
  )
}
