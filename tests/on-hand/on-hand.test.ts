import { sql } from 'kysely'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { isCheckViolation } from '../../src/db/violations.ts'
import { Conflict } from '../../src/http/errors.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bags, listPacks, move } from '../helpers/on-hand.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let helper: Browser

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  helper = await helperBrowser(app)
  await listPacks(app)
})
afterAll(() => app.close())

// Each test counts bags at a place of its own, as what came and went is never deleted.
let spot = ''
let nth = 0
beforeEach(() => {
  nth += 1
  spot = `Shed ${nth}`
})

const at = (units: string, instead = {}) => bags(units, { spot, key: `${spot} ${units}`, ...instead })

async function there() {
  const row = await app.db.selectFrom('on_hand').selectAll().where('spot', '=', spot).executeTakeFirst()
  return row && { id: row.id, units: Number(row.units) }
}
const count = (id: number, fields: Record<string, string>) =>
  helper
    .post(`/on-hand/${id}`)
    .type('form')
    .send({ note: '', ...fields })

test('what is left over comes on hand, what is loaded goes, and each move is taken once', async () => {
  await move(app, at('7'), at('-3', { kind: 'loaded' }))
  await move(app, at('7'), at('2.5'))
  expect(await there()).toMatchObject({ units: 6.5 })
  await expect(move(app, at('7', { units: '8' }))).rejects.toThrow(Conflict)
  expect(await there()).toMatchObject({ units: 6.5 })
})

test('no more goes than is there: nothing of such a move is kept, and the database refuses it too', async () => {
  await move(app, at('2'))
  const other = { spot: `${spot} too` }
  await expect(move(app, at('5', other), at('-3', { kind: 'loaded' }))).rejects.toThrow(Conflict)
  expect(await there()).toMatchObject({ units: 2 })
  const { id } = (await there())!
  const direct = sql`insert into on_hand_move (key, on_hand_id, kind, units, note, made_at)
    values (${`${spot} direct`}, ${id}, 'loaded', -2.001, '', now())`.execute(app.db)
  const error = await direct.catch(fault => fault)
  expect(isCheckViolation(error, 'on_hand_not_below_zero')).toBe(true)
  expect(await there()).toMatchObject({ units: 2 })
})

test('of many who take the last bags at once, as many get one as there are', async () => {
  await move(app, at('3'))
  const takes = Array.from({ length: 8 }, (_, who) =>
    move(app, at('-1', { kind: 'loaded', key: `${spot} ${who}` })).then(
      () => 'taken',
      () => 'refused',
    ),
  )
  expect((await Promise.all(takes)).filter(one => one === 'taken')).toHaveLength(3)
  expect(await there()).toMatchObject({ units: 0 })
})

test('what came and went stays as it was written', async () => {
  await move(app, at('4'))
  const { id } = (await there())!
  await expect(
    app.db.updateTable('on_hand_move').set({ units: '40' }).where('on_hand_id', '=', id).execute(),
  ).rejects.toThrow()
  await expect(app.db.deleteFrom('on_hand_move').where('on_hand_id', '=', id).execute()).rejects.toThrow()
})

test('a helper puts some on hand, once however often it is sent, and reads it in Spanish', async () => {
  const key = '0b7c1a52-7d5e-4a51-9c1d-8f2f4a3b6c0d'
  const fields = { key, what: 'finish shredded-wood bag', units: '12', spot, note: 'from the shop' }
  expect((await helper.post('/on-hand').type('form').send(fields)).status).toBe(303)
  expect((await helper.post('/on-hand').type('form').send(fields)).status).toBe(303)
  expect(await there()).toMatchObject({ units: 12 })
  const page = await helper.get('/on-hand?language=es').redirects(1)
  expect(page.text).toContain('Existencias')
  expect(page.text).toContain('12 × bolsa de 2 ft³')
  await helper.get('/on-hand?language=en').redirects(1)
  const again = await helper
    .post('/on-hand')
    .type('form')
    .send({ ...fields, units: '13' })
  expect([again.status, await there()]).toMatchObject([409, { units: 12 }])
})

test('what was counted takes the place of what was thought, unless it changed meanwhile', async () => {
  await move(app, at('7'))
  const { id } = (await there())!
  expect((await count(id, { seen: '7', units: '5', note: 'two were torn' })).status).toBe(303)
  expect((await count(id, { seen: '7', units: '5' })).status).toBe(303)
  const stale = await count(id, { seen: '7', units: '6' })
  expect(stale.status).toBe(409)
  expect(stale.text).toContain('It changed to 5 meanwhile')
  expect(await there()).toMatchObject({ units: 5 })
  const page = await helper.get(`/on-hand/${id}`)
  expect(page.text).toContain('two were torn')
  expect(page.text).toContain('−2')
  for (const units of ['', '-1', 'few', '1.2345', '100000'])
    expect((await count(id, { seen: '5', units })).status).toBe(422)
  expect((await helper.get('/on-hand/999999')).status).toBe(404)
  expect((await app.browser().get('/on-hand')).status).toBe(303)
})
