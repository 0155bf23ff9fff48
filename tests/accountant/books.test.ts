import { parse } from 'csv-parse/sync'
import { strFromU8, unzipSync } from 'fflate'
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest'
import { FILES } from '../../src/accountant/files.ts'
import { type TaxedBill, taxByRate } from '../../src/accountant/tax-by-rate.ts'
import { creditBill, makeBill } from '../../src/billing/make-bill.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { billedRequest, overpaidRequest, pay, returnedRequest } from '../helpers/bills.ts'
import { depositRequest } from '../helpers/bookings.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'

describe('tax by rate and area', () => {
  // 8.25 % of 200.00 is 16.50: with it 216.50.
  const due = {
    included: false,
    taxed: '200.00',
    untaxed: '0.00',
    rate: '0.0825',
    amount: '16.50',
    off: '0.00',
  }
  const bill = (instead: Partial<TaxedBill> = {}): TaxedBill => ({
    ...{ request: 1, day: '2026-03-10', kind: 'bill', area: '78701', total: '216.50', tax: due },
    names: { first: { en: 'Sales tax', es: 'Impuesto' }, second: null },
    ...instead,
  })
  const paid = (day: string, amount: string) => ({ request: 1, day, amount })
  const row = (instead: object) => ({
    ...{ name: 'Sales tax', rate: '0.0825', area: '78701', taxed: '0.00', billed: '0.00', received: '0.00' },
    ...instead,
  })
  const MARCH = { from: '2026-03-01', to: '2026-03-31' }
  const APRIL = { from: '2026-04-01', to: '2026-04-30' }

  // From memory, as Texas has it: landscaping is taxed at 6.25 % and up to 2 % of local tax; who keeps books by cash
  // reports what came in.
  it('is received in the share in which the bill was, over the periods all of it', () => {
    const money = [paid('2026-03-20', '100.00'), paid('2026-04-02', '116.50')]
    // 16.50 times 100 / 216.50 is 7.6212.
    expect(taxByRate([bill()], money, MARCH)).toEqual([
      row({ taxed: '200.00', billed: '16.50', received: '7.62' }),
    ])
    expect(taxByRate([bill()], money, APRIL)).toEqual([row({ received: '8.88' })])
  })

  it('of a deposit counts on the day of the bill, of too much no more than all', () => {
    const money = [paid('2026-02-01', '500.00')]
    expect(taxByRate([bill()], money, { from: '2026-02-01', to: '2026-02-28' })).toEqual([])
    expect(taxByRate([bill()], money, MARCH)).toEqual([
      row({ taxed: '200.00', billed: '16.50', received: '16.50' }),
    ])
  })

  it('goes back with a credit memo, and what was received with it', () => {
    const memo = bill({ kind: 'credit memo', day: '2026-04-05', total: '-216.50' })
    const money = [paid('2026-03-20', '216.50')]
    expect(taxByRate([bill(), memo], money, APRIL)).toEqual([
      row({ taxed: '-200.00', billed: '-16.50', received: '-16.50' }),
    ])
  })
})

describe('the zip', () => {
  let app: TestApp
  let owner: Browser

  beforeAll(async () => {
    app = await testApp()
    owner = (await openBusiness(app)).owner
    await billedRequest(app, { name: '=cmd|calc' })
    const { id, bill } = await billedRequest(app)
    await pay(app, id, '40.00', { tip: '5.00' })
    await creditBill(app.deps, 1, bill, '+more than agreed')
    await makeBill(app.deps, 1, id, {
      before: 1,
      added: [{ description: '@home', amount: '7.50' }],
      total: null,
    })
    await overpaidRequest(app)
    await returnedRequest(app)
    await depositRequest(app)
    await work(id)
    for (const [at, bought_at, paid, undone] of PURCHASES) await buy(at, bought_at, paid, undone)
  })
  afterAll(() => app.close())

  const PURCHASES = [
    ['a', '=Yard', '30.00', false],
    ['b', 'Stone Co', '12.50', false],
    ['c', '=Yard', '4.25', false],
    ['d', 'Stone Co', '99.00', true],
  ] as const
  /** Two and a half hours by two people, and a dump fee, of a job whose last day was Tuesday, March 31. */
  async function work(id: number) {
    const { id: closing_id } = await app.db
      .selectFrom('job_closing')
      .select('id')
      .where('quote_request_id', '=', id)
      .executeTakeFirstOrThrow()
    const hours = [
      { name: '@Bo', task: 'work', minutes: 100 },
      { name: '@Bo', task: 'driving', minutes: 20 },
      { name: 'Cy', task: 'work', minutes: 30 },
    ] as const
    await app.db
      .insertInto('job_hours')
      .values(hours.map((one, index) => ({ ...one, closing_id, nth: index + 1, account_id: null })))
      .execute()
    const fee = { closing_id, nth: 1, amount: '18.00', words: '=Green waste', typed_by: 1 }
    await app.db.insertInto('job_dump_fee').values(fee).execute()
  }
  async function buy(key: string, bought_at: string, paid: string, undone: boolean) {
    const at = app.deps.now().toString()
    const what = { of: 'finish', slug: 'compost', pack: '', units: '2', contents: '1' } as const
    const got = { ...what, key, day: '2026-03-02', delivered: false, on_hand_id: null, bought_at, paid }
    const undo = undone ? { undone_at: at, undone_by: 1 } : {}
    await app.db
      .insertInto('load_got')
      .values({ ...got, ticket: null, made_at: at, made_by: 1 })
      .execute()
    if (undone) await app.db.updateTable('load_got').set(undo).where('key', '=', key).execute()
  }
  const filesOf = async (query = '') => {
    const answer = await owner
      .post('/accountant/books.zip')
      .type('form')
      .send(query)
      .responseType('blob')
      .expect(200)
    const files = Object.entries(unzipSync(new Uint8Array(answer.body)))
    return new Map(files.map(([name, bytes]) => [name, strFromU8(bytes)]))
  }
  const rowsOf = (text: string): Record<string, string>[] => parse(text, { bom: true, columns: true })
  const sum = (rows: Record<string, string>[], column: string) =>
    rows.reduce((all, row) => all.plus(row[column]!), new Decimal(0)).toFixed(2)
  const money = (amount: string) =>
    Number(amount).toLocaleString('en-US', { style: 'currency', currency: 'USD' })

  test('has every file with its columns, and a text that tells of each', async () => {
    const files = await filesOf()
    expect([...files.keys()].sort()).toEqual(
      [...Object.values(FILES).map(({ name }) => name), 'read-me.txt'].sort(),
    )
    for (const { name, columns } of Object.values(FILES)) {
      const [header] = parse(files.get(name)!, { bom: true }) as string[][]
      expect(header).toEqual(columns.map(([column]) => column))
      for (const [column] of columns) expect(files.get('read-me.txt')).toContain(`  ${column}: `)
    }
  })

  test('adds up: lines to bills, and all of it to what the page says', async () => {
    const files = await filesOf()
    const bills = rowsOf(files.get('bills.csv')!)
    const lines = rowsOf(files.get('lines.csv')!)
    expect(bills.length).toBeGreaterThan(5)
    for (const { number, total } of bills)
      expect(
        sum(
          lines.filter(line => line.number === number),
          'amount',
        ),
      ).toBe(new Decimal(total!).toFixed(2))
    const page = (await owner.get('/accountant')).text
      .replace(/<[^>]+>/g, ' ')
      .replace(/\s+/g, ' ')
      .replace(/ \./g, '.')
    const of = (kind: string) => bills.filter(bill => bill.kind === kind)
    const payments = rowsOf(files.get('payments.csv')!)
    for (const [what, amount] of [
      ['Billed', sum(of('bill'), 'total')],
      ['Canceled by credit memos', sum(of('credit memo'), 'total')],
      [
        'Money received, less what went back',
        sum(
          payments.filter(({ way }) => way !== 'credit'),
          'amount',
        ),
      ],
      ['Tips', sum(payments, 'tip')],
      ['Fees for returned checks', sum(rowsOf(files.get('fees.csv')!), 'amount')],
      ['Deposits held at the end', sum(rowsOf(files.get('deposits-held.csv')!), 'held')],
      ['Tax billed', sum(rowsOf(files.get('tax.csv')!), 'billed')],
    ] as const)
      expect(page).toContain(`${what} ${money(amount)}`.replace('$-', '-$'))
    expect(sum(rowsOf(files.get('deposits-held.csv')!), 'held')).toBe('20.00')
    const bought = rowsOf(files.get('purchases.csv')!)
    expect(bought.map(({ supplier, paid }) => [supplier, paid])).toEqual([
      ["'=Yard", '30.00'],
      ["'=Yard", '4.25'],
      ['Stone Co', '12.50'],
    ])
    const march = await filesOf('from=2026-03-01&to=2026-03-31')
    expect(rowsOf(march.get('hours.csv')!).map(row => Object.values(row))).toEqual([
      ["'@Bo", '2026-03-30', 'driving', '0.33'],
      ["'@Bo", '2026-03-30', 'work', '1.67'],
      ['Cy', '2026-03-30', 'work', '0.50'],
    ])
    const [dump] = rowsOf(march.get('dump-fees.csv')!)
    expect(dump).toMatchObject({ day: '2026-03-31', amount: '18.00', what: "'=Green waste" })
    const inMarch = (await owner.get('/accountant?from=2026-03-01&to=2026-03-31')).text.replace(
      /<[^>]+>/g,
      ' ',
    )
    expect(inMarch.replace(/\s+/g, ' ')).toMatch(/Hours worked @Bo 2 (?:h )?Cy 0 ?\.5/)
    expect(page).toContain('Bought, by supplier =Yard $34.25 Stone Co $12.50')
  })

  test('has nothing that a spreadsheet would run, and only what is of its days', async () => {
    const files = await filesOf()
    for (const [name, text] of files) {
      if (!name.endsWith('.csv')) continue
      for (const cell of (parse(text, { bom: true }) as string[][]).flat())
        if (/^[=+\-@]/.test(cell)) expect(cell).toMatch(/^-\d+\.\d\d$/)
    }
    expect(files.get('bills.csv')).toContain("'=cmd|calc")
    const none = await filesOf('from=2025-01-01&to=2025-12-31')
    for (const { name } of Object.values(FILES)) expect(rowsOf(none.get(name)!)).toEqual([])
    expect((await owner.get('/accountant?from=2026-03-02&to=2026-03-01')).status).toBe(422)
  })

  test('isn’t for helpers', async () => {
    const helper = await helperBrowser(app)
    expect((await helper.get('/accountant')).status).toBe(403)
    expect((await helper.post('/accountant/books.zip')).status).toBe(403)
  })
})
