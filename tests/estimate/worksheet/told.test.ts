import fc from 'fast-check'
import { expect, it } from 'vitest'
import { factor, sumOfProducts, workedOut } from '../../../src/estimate/job/factors.ts'
import { plainTerms } from '../../../src/estimate/job/terms.ts'
import { workOutPrice } from '../../../src/estimate/price/firm-price.ts'
import { equation } from '../../../src/estimate/worksheet/equation.ts'
import { figuresOf } from '../../../src/estimate/worksheet/figures.ts'
import { priceSteps } from '../../../src/estimate/worksheet/price-steps.ts'
import { worksheetOf } from '../../../src/estimate/worksheet/worksheet.ts'
import { Decimal, sumOf } from '../../../src/lib/decimal.ts'
import { jobOf, testTable } from '../jobs.ts'
import { anyPriced, centsOf, equationsOf, sidesOf } from './told.ts'

const inCents = (amount: Decimal | string) => BigInt(new Decimal(amount).times(100).toFixed())
/** The last amount that a step prints, in cents. */
const lastOf = (step: string) => {
  const [, sign, figure] = /(−?)\$([\d,.]+)$/.exec(step)!
  return (sign === '' ? 1n : -1n) * inCents(figure!.replaceAll(',', ''))
}
const sum = (all: bigint[]) => all.reduce((total, one) => total + one, 0n)

it('the factors of every line come to its amount, to the cent, whatever the job and the table', () => {
  fc.assert(
    fc.property(anyPriced, ({ job, table, terms }) => {
      const { lines } = workOutPrice(job, table, terms)
      lines.forEach((line, index) => {
        expect(centsOf(line.factors)).toBe(inCents(line.amount))
        const inner = line.factors.sum.flat().filter(({ from }) => from)
        for (const { from, value } of inner) expect(centsOf(from!)).toBe(inCents(value))
        if (line.kind !== 'adjustment' && line.kind !== 'minimum') return
        // These two are reckoned on the lines before them.
        const before = sumOf(lines.slice(0, index).map(({ amount }) => new Decimal(amount)))
        const told = line.factors.sum
          .flat()
          .filter(({ unit, value }) => unit === 'money' && value.abs().eq(before))
        const agreed = terms.adjustment?.by === 'money' && line.kind === 'adjustment'
        expect(told.length > 0 || agreed).toBe(true)
      })
    }),
    { numRuns: 150 },
  )
})

it('what the worksheet prints comes to its amounts, and these to the total, whatever the job and the table', () => {
  fc.assert(
    fc.property(anyPriced, ({ job, table, terms }) => {
      const { lines, tax, total } = workOutPrice(job, table, terms)
      const steps = worksheetOf(job, table, terms).price
      for (const equation of steps.slice(0, lines.length).flatMap(equationsOf)) {
        const { worked, told, within } = sidesOf(equation)
        expect(Math.abs(worked - told), equation).toBeLessThanOrEqual(within)
      }
      // A tax that the prices have in them is told, and adds nothing.
      const onTop = tax?.included ? lines.length : steps.length - 1
      expect(sum(steps.slice(0, onTop).map(lastOf))).toBe(lastOf(steps.at(-1)!))
      expect(lastOf(steps.at(-1)!)).toBe(inCents(total))
    }),
    { numRuns: 60 },
  )
})

it('it prints the factors that a line came about by, and works nothing out again', () => {
  const table = testTable()
  const job = jobOf([{}], table)
  const { lines, tax, total } = workOutPrice(job, table)
  const factors = sumOfProducts([factor('7', 'yd3'), factor('11', 'money')])
  const changed = { ...lines[0]!, factors, amount: workedOut(factors).toFixed(2) }
  const told = { job, lines: [changed], tax, total, terms: plainTerms, table, figures: figuresOf(table) }
  expect(priceSteps(told)[0]).toBe('Shredded wood: 7 yd³ × $11.00 = $77.00')
})

it('a half cent goes up, and away from zero below it', () => {
  // 0.15 ft³ × 90.90 ÷ 27 is exactly 0.505.
  const half = [factor('0.15', 'yd3', { per: new Decimal(27) }), factor('90.90', 'money')]
  expect(workedOut(sumOfProducts(half)).toFixed()).toBe('0.51')
  expect(workedOut({ sum: [half], times: [], over: [factor('-1', 'number')] }).toFixed()).toBe('-0.51')
})

it('hours of a foot of edge are printed as exact as the table tells them', () => {
  const table = testTable()
  const edge = [factor('140', 'ft'), factor('0.015', 'h'), factor('20', 'money')]
  const factors = { sum: [edge], times: [], over: [factor('0.6', 'number', { is: 'margin' })] }
  // 140 × 0.015 × 20 is 42, and ÷ 0.6 it is 70.
  expect(equation(factors, '70', figuresOf(table))).toBe('140 ft × 0.015 h × $20.00 ÷ (1 − 0.4) = $70.00')
})
