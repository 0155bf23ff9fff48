import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { cannotDo } from '../../src/bookings/cannot-do.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let jose: Awaited<ReturnType<typeof sendRequest>>

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  jose = await sendRequest(app, {
    name: 'José García',
    note: 'O’Neill’s old tulips',
    phone: '+1 (512) 555-0177',
    street: '4 Mill Lane',
    postcode: '78701',
  })
  await owner.post(`/queue/${jose.number}/note`).type('form').send({ note: 'Has a padlock' }).expect(303)
  await sendRequest(app, {
    name: 'Bob Marsh',
    phone: '0171 5550142',
    street: '88 Orchard Road',
    postcode: '787-44',
  })
  await sendRequest(app, {
    name: '100% Garden_Club',
    phone: '',
    email: 'club@example.com',
    street: '1 Rill Way',
    postcode: '78745',
  })
})
afterAll(() => app.close())

async function found(typed: string): Promise<string[]> {
  const page = await owner.get(`/queue?${new URLSearchParams({ q: typed })}`).expect(200)
  return [...page.text.matchAll(/<span class="row-name"><a [^>]*>([^<]*)/g)].map(([, name]) => name!)
}

describe('searching the queue', () => {
  it.each([
    ['a name', 'José García'],
    ['without its accents, in another case', 'jose GARCIA'],
    ['a part of it', 'arcí'],
    ['words of name and place in any order', 'mill garcia'],
    ['its phone as written', '+1 (512) 555-0177'],
    ['the phone with nothing between', '5125550177'],
    ['the phone with points', '512.555.0177'],
    ['the last digits', '0177'],
    ['with two zeros for the plus', '001 512 555 0177'],
    ['a street', 'mill lane'],
    ['a ZIP', '78701'],
    ['a street’s number, the beginning of a word', '4 mi'],
    ['a name without its apostrophe', 'oneill'],
    ['a word of its note', 'TULIP'],
    ['a word of the owner’s note', 'padlock'],
    ['its number without the hyphen', '260001'],
  ])('finds %s', async (_what, typed) => {
    expect(await found(typed)).toEqual(['José García'])
  })

  it('finds a number', async () => {
    expect(await found(jose.number)).toEqual(['José García'])
  })

  it('finds a phone kept without the country’s code when it is typed with it', async () => {
    expect(await found('+44 171 555 0142')).toEqual(['Bob Marsh'])
  })

  it('takes signs that mean something to the database as they are', async () => {
    expect(await found('%')).toEqual(['100% Garden_Club'])
    expect(await found('n_c')).toEqual(['100% Garden_Club'])
    expect(await found("'; drop table quote_request; --")).toEqual([])
    expect(await found('\\')).toEqual([])
  })

  it('says kindly that nothing is found, and shows what was typed', async () => {
    const page = await owner.get('/queue?q=Zebedee+%3Cb%3E').expect(200)
    expect(page.text).toContain('Nothing found for “Zebedee &lt;b&gt;.”')
    expect(page.text).toContain('value="Zebedee &lt;b&gt;"')
  })

  it('finds ended ones too, newest first, with how they ended', async () => {
    const { id } = await sendRequest(app, { name: 'José Far' })
    const { id: accountId } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()
    await cannotDo(app.deps, accountId, id, { reason: 'far', words: '' })
    expect(await found('José')).toEqual(['José Far', 'José García'])
    const page = await owner.get('/queue?q=far')
    expect(page.text).toContain('turned down Mon, Mar 2')
  })

  it('goes on to older ones where there are many', async () => {
    for (let n = 0; n < 52; n++) await sendRequest(app, { name: `Many ${String(n).padStart(2, '0')}` })
    const page = await owner.get('/queue?q=many')
    const names = [...page.text.matchAll(/>Many (\d\d)</g)].map(([, n]) => n)
    expect(names).toHaveLength(50)
    expect(names[0]).toBe('51')
    const [, older] = /href="(\/queue\?q=many&amp;after=\d+)"/.exec(page.text)!
    const next = await owner.get(older!.replace('&amp;', '&'))
    expect([...next.text.matchAll(/>Many (\d\d)</g)].map(([, n]) => n)).toEqual(['01', '00'])
  })
})
