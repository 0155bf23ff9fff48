import { unzipSync } from 'fflate'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { eraseCustomer } from '../../src/privacy/erase.ts'
import { zipOfPeople } from '../../src/privacy/export.ts'
import { peopleOf } from '../../src/privacy/people.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

async function quoted() {
  const { id, number } = await quotedRequest(app)
  const request = app.db.selectFrom('quote_request').select('customer_id').where('id', '=', id)
  return { number, customer: (await request.executeTakeFirstOrThrow()).customer_id }
}

async function namesIn(zip: AsyncIterable<Uint8Array>): Promise<string[]> {
  const chunks: Uint8Array[] = []
  for await (const chunk of zip) chunks.push(chunk)
  return Object.keys(unzipSync(Buffer.concat(chunks)))
}

test('who is erased while their zip is made has no price in it, and the zip ends as it should', async () => {
  const { number, customer } = await quoted()
  const people = await peopleOf(app.db, customer)
  expect(await namesIn(zipOfPeople(app.deps, people))).toContain(`prices/${number}.pdf`)
  const { standing } = app.deps
  // What the price is made from is read after that.
  const read = async () => {
    await eraseCustomer(app.deps, 1, customer)
    return standing.read()
  }
  const deps = { ...app.deps, standing: Object.assign(Object.create(standing), { read }) }
  expect(await namesIn(zipOfPeople(deps, people))).toEqual(['read-me.txt', 'person.json'])
})

test('a price that can’t be made of somebody who is here still is a fault', async () => {
  const { customer } = await quoted()
  const people = await peopleOf(app.db, customer)
  const standing = Object.assign(Object.create(app.deps.standing), {
    read: () => Promise.reject(new Error('the store is away')),
  })
  await expect(namesIn(zipOfPeople({ ...app.deps, standing }, people))).rejects.toThrow('the store is away')
})
