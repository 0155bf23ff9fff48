import { array, assert, bigInt, property } from 'fast-check'
import { describe, expect, it } from 'vitest'
import { sumOfProducts } from '../../src/estimate/job/factors.ts'
import type { Price } from '../../src/estimate/price/firm-price.ts'
import { FormFields } from '../../src/http/form-fields.ts'
import { readAmount } from '../../src/http/read-figure.ts'
import { composeLines, totalOf } from '../../src/quotes/compose-lines.ts'
import { readQuoteForm } from '../../src/quotes/form.ts'

const factors = sumOfProducts()
const PRICE: Pick<Price, 'lines'> = {
  lines: [
    {
      kind: 'finish',
      slug: 'shredded-wood',
      quantity: { value: '3.0000', unit: 'yd3' },
      rate: '100.00',
      amount: '300.00',
      factors,
    },
    { kind: 'travel', slug: null, quantity: null, rate: null, amount: '25.00', factors },
  ],
}

const asWorkedOut = { revision: '1', basis: 'b', laborHours: '3.00', note: '' }

const readForm = (sent: Record<string, string>) =>
  readQuoteForm(new FormFields({ ...asWorkedOut, ...sent }), PRICE)

const rowsNamed = (name: string, rows: Record<string, string>[]) =>
  Object.fromEntries(
    rows.flatMap((row, index) =>
      Object.entries(row).map(([field, text]) => [`${name}.${index}.${field}`, text]),
    ),
  )

describe('reading the quote form', () => {
  it.each([
    ['120', '120.00'],
    ['$1,240.50', '1240.50'],
    ['-25', '-25.00'],
    ['−25.5', '-25.50'],
    ['0', '0.00'],
    ['-0', '0.00'],
  ])('reads %s as %s', (typed, amount) => {
    expect(readAmount(typed)).toBe(amount)
  })

  it.each(['', 'free', '12.345', '--5', '1.2.3', '99999999'])('takes %s for no amount', typed => {
    expect(readAmount(typed)).toBeNull()
  })

  it('leaves lines that were not sent as they were worked out', () => {
    const reading = readForm({})
    expect(reading.errors).toEqual({})
    expect(totalOf(composeLines(PRICE, reading.wanted))).toBe('325.00')
  })

  it('asks for a reason beside an amount that differs, and for none that does not', () => {
    const lines = [
      { amount: '280', reason: '' },
      { amount: '25', reason: '' },
    ]
    const { errors } = readForm(rowsNamed('lines', lines))
    expect(Object.keys(errors)).toEqual(['lines.0.reason'])
  })

  it('asks for every part of a line of the contractor’s own, and passes over an empty one', () => {
    const added = [
      { description: '', amount: '', reason: '' },
      { description: 'Steep slope', amount: 'lots', reason: '' },
      { description: '', amount: '10', reason: 'x' },
    ]
    const { errors } = readForm(rowsNamed('added', added))
    expect(Object.keys(errors).sort()).toEqual(['added.1.amount', 'added.1.reason', 'added.2.description'])
  })

  it.each(['', '0', 'six', '-2', '99999'])('refuses %s labor hours', laborHours => {
    expect(Object.keys(readForm({ laborHours }).errors)).toEqual(['laborHours'])
  })

  it('refuses lines that come to less than nothing', () => {
    const added = [{ description: 'Rebate', amount: '-325.01', reason: 'x' }]
    expect(Object.keys(readForm(rowsNamed('added', added)).errors)).toEqual([''])
  })
})

describe('the total of a quote', () => {
  // Amounts as whole cents, so that the expected sum needs no decimals.
  const cents = bigInt({ min: -1_000_000n, max: 1_000_000n })

  it('is the sum of its lines to the cent, whatever their number, order and sign', () => {
    assert(
      property(array(cents, { maxLength: 40 }), amounts => {
        const added = amounts.map(amount => ({ description: 'x', amount: inMoney(amount), reason: 'y' }))
        const drawn = composeLines(PRICE, { amounts: null, added })
        const sum = amounts.reduce((total, amount) => total + amount, 32_500n)
        expect(totalOf(drawn)).toBe(inMoney(sum))
        expect(totalOf(drawn.toReversed())).toBe(inMoney(sum))
      }),
    )
  })
})

function inMoney(cents: bigint): string {
  const digits = String(cents < 0n ? -cents : cents).padStart(3, '0')
  return `${cents < 0n ? '-' : ''}${digits.slice(0, -2)}.${digits.slice(-2)}`
}
