import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readBedsForm, toldOf } from '../../src/requests/form.ts'
import { testTable } from '../estimate/jobs.ts'
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
    'sizes.length': '20',
    'sizes.width': '5',
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

test('it is asked folded, of more than one bed alone, and narrows the range at once', async () => {
  const [one, plain, taped] = await Promise.all(
    [{ ...bed(0), measuredBy: 'eye' }, two(), two({ measuredBy: 'tape' })].map(pageOf),
  )
  expect(one).not.toContain('measured another way')
  expect(plain).toMatch(/<details>\s*<summary>Was bed 2 measured another way\?/)
  expect(taped).toMatch(/<details open>\s*<summary>Was bed 2 measured another way\?/)
  expect(taped).toMatch(/name="beds\.1\.measuredBy" value="tape" checked/)
  const width = (page: string) => {
    const [, low, high] = /\$([\d,]+) to \$([\d,]+)/.exec(page)!
    return Number(high!.replace(',', '')) - Number(low!.replace(',', ''))
  }
  expect(width(taped!)).toBeLessThan(width(plain!))
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
