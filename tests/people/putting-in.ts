import { randomUUID } from 'node:crypto'
import { expect } from 'vitest'
import type { TestApp } from '../helpers/app.ts'
import type { Browser } from '../helpers/people.ts'

/** Puts requests in as the owner's browser does, and looks at what is stored of them. */
export function puttingIn(app: TestApp, owner: Browser) {
  const post = (path: string, fields: Record<string, unknown>) => owner.post(path).type('form').send(fields)
  const putIn = (fields: Record<string, string>) =>
    post('/put-in', { submissionKey: randomUUID(), finish: 'shredded-wood', ...fields })

  async function stored(number: string) {
    return app.db
      .selectFrom('quote_request')
      .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
      .innerJoin('place', 'place.id', 'quote_request.place_id')
      .leftJoin('ballpark', 'ballpark.quote_request_id', 'quote_request.id')
      .selectAll('quote_request')
      .select(['customer.name', 'customer.phone', 'customer.email', 'place.street', 'place.postcode'])
      .select([
        'customer.head_id as customer_head',
        'place.head_id as place_head',
        'ballpark.low',
        'ballpark.likely',
      ])
      .where('number', '=', number)
      .executeTakeFirstOrThrow()
  }

  /** Puts it in, and gives its number and its row. */
  async function isIn(fields: Record<string, string>) {
    const answer = await putIn(fields)
    expect(answer.status).toBe(303)
    const number = /^\/put-in\/(26-\d{4})$/.exec(answer.headers.location ?? '')![1]!
    return stored(number)
  }

  const verbsOf = async (id: number) =>
    (
      await app.db
        .selectFrom('history')
        .select(['verb', 'by_kind'])
        .where('quote_request_id', '=', id)
        .orderBy('id')
        .execute()
    ).map(({ verb, by_kind }) => `${verb} by ${by_kind}`)

  async function ownPathOf(number: string): Promise<string> {
    const page = (await owner.get(`/put-in/${number}`)).text
    return new URL(/http:\/\/localhost:8080\/r\/[\w-]+/.exec(page)![0]).pathname
  }
  return { post, putIn, stored, isIn, verbsOf, ownPathOf }
}
