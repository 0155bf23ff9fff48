import { afterAll, beforeAll, expect, test } from 'vitest'
import { findTables } from '../../src/backup/tables.ts'
import { eraseCustomer } from '../../src/privacy/erase.ts'
import { sweepKept } from '../../src/privacy/sweep.ts'
import { OF_NOBODY, OF_PERSON } from '../../src/privacy/tables.ts'
import { fill } from '../backup/filled.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { endAndMark, figuresOf, marksLeft } from './marked.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
})
afterAll(() => app.close())

/** Where names stand for the tax office until the years are over. */
const KEPT_BY_LAW = [
  'bill.bill_to',
  'bill.order_number',
  'bill.place',
  'bill.reason',
  'bill.tax_note',
  'bill_line.words',
  'firm.bill_address',
  'firm.bill_name',
  'firm.exempt_number',
  'job_certificate.number',
  'job_hours.name',
  'kept_file.bytes',
  'purchase_order.number',
]

test('every table of the store is known to hold something of a homeowner, or nothing', async () => {
  expect([...Object.keys(OF_PERSON), ...Object.keys(OF_NOBODY)].sort()).toEqual(await findTables(app.db))
})

test('of people who are erased nothing is left that names them but what is kept by law, and nothing of that once its years are over', async () => {
  await fill(app)
  const columns = await endAndMark(app)
  const before = await marksLeft(app)
  const unmarked = columns
    .map(({ table, column }) => `${table}.${column}`)
    .filter(one => !before.includes(one))
  expect(unmarked).toEqual([])
  const figures = await figuresOf(app)
  const heads = await app.db.selectFrom('customer').select('head_id').distinct().execute()
  for (const { head_id } of heads) expect(await eraseCustomer(app.deps, 1, head_id)).toEqual({ is: 'erased' })
  expect(await marksLeft(app)).toEqual(KEPT_BY_LAW)
  app.setClock('2033-12-31T18:00:00Z')
  await sweepKept(app.deps)
  expect(await marksLeft(app)).toEqual(KEPT_BY_LAW)
  app.setClock('2034-01-01T18:00:00Z')
  await sweepKept(app.deps)
  expect(await marksLeft(app)).toEqual([])
  expect(await figuresOf(app)).toEqual(figures)
}, 120_000)
