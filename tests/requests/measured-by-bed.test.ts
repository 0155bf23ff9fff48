import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import { readBedsForm, toldOf } from '../../src/requests/form.ts'
import { jobOf, testTable } from '../estimate/jobs.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendBy } from '../helpers/request-form.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const bed = (index: number, changes: Record<string, string> = {}) => {
  const fields = {
    shape: 'rectangle',
    'sizes.length': '60',
    'sizes.width': '20',
    finish: 'shredded-wood',
    ...changes,
  }
  return Object.fromEntries(Object.entries(fields).map(([name, value]) => [`beds.${index}.${name}`, value]))
}
const two = (second: Record<string, string> = {}) => ({ ...bed(0), ...bed(1, second), measuredBy: 'eye' })
const pageOf = async (fields: Record<string, string>) =>
  (await app.browser().get(`/?${new URLSearchParams(fields)}`)).text

test('a bed is measured as all are, where it doesn’t say otherwise', () => {
  const waysOf = (fields: Record<string, string>) =>
    toldOf(readBedsForm(fields, testTable())).beds.map(({ measuredBy }) => measuredBy)
  expect(waysOf(two())).toEqual(['eye', 'eye'])
  expect(waysOf(two({ measuredBy: '' }))).toEqual(['eye', 'eye'])
  expect(waysOf(two({ measuredBy: 'tape' }))).toEqual(['eye', 'tape'])
  expect(waysOf({ ...two({ measuredBy: 'eye' }), measuredBy: 'tape' })).toEqual(['tape', 'eye'])
})

test('it is asked folded, of more than one bed alone, and narrows the range', async () => {
  const [one, plain, taped] = await Promise.all(
    [{ ...bed(0), measuredBy: 'eye' }, two(), two({ measuredBy: 'tape' })].map(pageOf),
  )
  expect(one).not.toContain('measured another way')
  expect(plain).toMatch(/<details>\s*<summary>Was bed 2 measured another way\?/)
  expect(taped).toMatch(/<details open>\s*<summary>Was bed 2 measured another way\?/)
  expect(taped).toMatch(/name="beds\.1\.measuredBy" value="tape" checked/)
  const widthOf = (fields: Record<string, string>) => {
    const { low, high } = workOutBallpark(
      jobOf(toldOf(readBedsForm(fields, testTable())).beds),
      testTable(),
    ).range
    return Number(high) - Number(low)
  }
  expect(widthOf(two({ measuredBy: 'tape' }))).toBeLessThan(widthOf(two()))
})

test('what was typed goes on to the next page, and is stored as understood', async () => {
  const submissionKey = randomUUID()
  await sendBy(app, { ...two({ measuredBy: 'tape' }), submissionKey })
  const { understood, told } = await app.db
    .selectFrom('quote_request')
    .select(['understood', 'told'])
    .where('submission_key', '=', submissionKey)
    .executeTakeFirstOrThrow()
  const ways = (beds: { measuredBy: string }[]) => beds.map(({ measuredBy }) => measuredBy)
  expect(ways(told!.beds)).toEqual(['eye', 'tape'])
  expect(ways(understood!.beds)).toEqual(['eye', 'tape'])
})

test('a way that there isn’t is refused beside the bed, and kept', async () => {
  const answer = await app
    .browser()
    .post('/ballpark')
    .type('form')
    .send({ ...two({ measuredBy: 'thumb' }), do: 'range' })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('id="beds-1-measuredBy-error"')
  expect(answer.text).not.toContain('id="measuredBy-error"')
})
