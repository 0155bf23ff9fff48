import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

async function measured(shape: string, sizes: Record<string, string>) {
  const { number } = await sendRequest(app)
  const path = `/queue/${number}`
  const day = { 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' }
  await owner.post(`${path}/visit`).type('form').send(day).expect(303)
  const typed = Object.entries(sizes).map(([name, size]) => [`beds.0.sizes.${name}`, size])
  const bed = { told: '0', shape, count: '1', planted: 'open', lying: 'bare', finish: 'compost', depth: '2' }
  const fields = Object.entries(bed).map(([name, value]) => [`beds.0.${name}`, value])
  const sheet = { measuredBy: 'tape', do: 'keep', ...Object.fromEntries([...typed, ...fields]) }
  const answer = await owner.post(`${path}/measurements`).type('form').send(sheet)
  return { answer, page: await owner.get(path) }
}

test('the sheet offers the shapes that need a tape, and the homeowner’s form does not', async () => {
  const { number } = await sendRequest(app)
  const day = { 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' }
  await owner.post(`/queue/${number}/visit`).type('form').send(day).expect(303)
  const sheet = await owner.get(`/queue/${number}/measure`).expect(200)
  const form = await app.browser().get('/').expect(200)
  for (const shape of [
    'circle-round',
    'half-circle',
    'quarter-circle',
    'sides',
    'trapezoid',
    'l-shape',
    'ring',
    'uneven-offsets',
  ]) {
    expect(sheet.text).toContain(`value="${shape}"`)
    expect(form.text).not.toContain(`value="${shape}"`)
  }
})

test.each([
  ['l-shape', { length: '20', width: '10', cutLength: '8', cutWidth: '5' }, '160 square feet'],
  ['two-arms', { length: '20', width: '5', armLength: '5', armWidth: '12' }, '160 square feet'],
  ['sides', { a: '15', b: '13', c: '14' }, '84 square feet'],
  ['uneven-offsets', { spacings: '10 10 6 3 3 3', offsets: '2 6 4 8 9 7 1' }, '201 square feet'],
  ['trapezoid', { base: '12', top: '8', height: '10' }, '100 square feet'],
  ['offsets', { spacing: '10', offsets: '12 8' }, '100 square feet'],
])('a bed measured as %s is kept and drawn', async (shape, sizes, area) => {
  const { answer, page } = await measured(shape, sizes)
  expect(answer.status).toBe(303)
  expect(page.text).toContain(area)
})

test('sides that can’t meet are refused beside the longest, and kept as typed', async () => {
  const { answer } = await measured('sides', { a: '4', b: '20', c: '5' })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('id="beds-0-sizes-b-error"')
  expect(answer.text).toContain('value="20"')
})
