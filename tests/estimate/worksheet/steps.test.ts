import fc from 'fast-check'
import { evaluate } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { plainTerms } from '../../../src/estimate/job/terms.ts'
import { workOutPrice } from '../../../src/estimate/price/firm-price.ts'
import { worksheetOf } from '../../../src/estimate/worksheet/worksheet.ts'
import { anyCostTable, anyWay, costTable, jobAway } from '../cost-priced.ts'
import { anyBeds } from '../generated.ts'
import { jobOf, testTable } from '../jobs.ts'
import { bag, bale, bulk, tableWith } from '../packs/made.ts'
import { taxOf } from '../taxes.ts'

const allOf = (sheet: ReturnType<typeof worksheetOf>) => [
  ...sheet.beds.flat(),
  ...sheet.buying.flatMap(({ steps }) => steps),
  ...sheet.labor,
  ...sheet.laborHour,
  ...sheet.price,
  ...sheet.cost,
]

describe('the steps of published examples', () => {
  // UF/IFAS Extension Polk County, Mulch, 2016: 5 × 20 ft at 3 in are 25 ft³. Its bags of 2 ft³ are C: 12.5, so 13.
  it('from the tape to the bags', () => {
    const table = tableWith([bag()])
    const sheet = worksheetOf(jobOf([{ sizes: { length: '20', width: '5' } }], table), table)
    expect(sheet.beds[0]).toEqual([
      'Area: 20 ft × 5 ft = 100 ft²',
      'Depth to add: 3 in',
      'Volume in place: 100 ft² × 3 in ÷ 12 = 25 ft³',
      'Edge: 50 ft',
    ])
    expect(sheet.buying[0]!.steps[0]).toBe('To order: 25 ft³; ÷ 27 = 0.93 yd³')
    expect(sheet.buying[0]!.steps[1]).toContain('25 ft³ ÷ 2 ft³ a bag = 12.5, so 13 × bag')
  })

  // LSU AgCenter column, 2002-12-01: 20 × 30 ft at 3 in are 150 ft³, 75 bags of 2 ft³, 30 bales at 20 ft² a bale.
  it('with every way to buy against the cheapest', () => {
    const table = tableWith([bag(), bale()])
    const sheet = worksheetOf(jobOf([{ sizes: { length: '30', width: '20' } }], table), table)
    const [, taken, against] = sheet.buying[0]!.steps
    // At the invented 6 a bale and 4 a bag, 180 against 300.
    expect(taken).toMatch(
      /^Chosen as the cheapest: 150 ft³ ÷ 5 ft³ a bale \(20 ft² at 3 in\) = 30, so 30 × bale/,
    )
    expect(against).toMatch(/^Compared with: 150 ft³ ÷ 2 ft³ a bag = 75, so 75 × bag.*300\.00/)
  })

  // Punmia, Surveying: offsets at 10 m of 0 2.5 3.5 5.0 4.6 3.2 0 are 196.67 m² by Simpson's rule.
  it('of an outline by offsets', () => {
    const table = testTable({}, 'metric')
    const told = {
      shape: 'offsets',
      sizes: { spacing: '10', offsets: '0 2.5 3.5 5.0 4.6 3.2 0' },
      depth: '7.5',
    }
    expect(worksheetOf(jobOf([told], table), table).beds[0]![0]).toBe(
      'Area: 10 m ÷ 3 × (0 + 4 × 10.7 + 2 × 8.1) = 196.67 m²',
    )
  })
})

it('tells what is cut out, what lies there, what plants take, what has no edge, and what slows the work', () => {
  const { labor } = testTable()
  const planted = { open: '1', half: '1.1', full: '1.25' }
  const carry = { free: '50', each: '50', adds: '0.2' }
  const table = testTable({ labor: { ...labor, planted, carry, stair: '0.02' } })
  const told = {
    sizes: { length: '20', width: '5' },
    lying: 'fair',
    planted: 'half',
    cutOuts: '4 x 2 ft',
    noEdge: '20',
    carry: '150',
    stairs: '5',
    count: 2,
  }
  // 92 ft² × 2 in ÷ 12 × 0.85 = 13.0333; slowed by 1 + 100 ÷ 50 × 0.2 = 1.4, by 1.1 and by 1.1: 1.694.
  expect(worksheetOf(jobOf([told], table), table).beds[0]).toEqual([
    'Area: 20 ft × 5 ft = 100 ft²',
    'Cut out: 4 ft × 2 ft = 8 ft², which leaves 92 ft²',
    'Depth to add: 3 in − 1 in of old mulch = 2 in',
    'Volume in place: 92 ft² × 2 in ÷ 12 × 0.85 not covered by plants = 13.03 ft³; × 2 alike = 26.07 ft³',
    'Edge: 50 ft − 20 ft with no edge = 30 ft',
    'Spreading is slower: (1 + 100 ft ÷ 50 ft × 0.2 for the distance) × (1 + 5 × 0.02 for stairs) × (1.1 for plants) = 1.694',
  ])
})

it('says nothing twice: what slows the work alone, and a truck that costs so much a job', () => {
  const { labor, costs } = costTable()
  const planted = { open: '1', half: '1.125', full: '1.25' }
  const truck = { truckPerJob: '8', truckPerTrip: '0', truckEach: '0' }
  const table = { ...costTable(), labor: { ...labor, planted }, costs: { ...costs, ...truck } }
  const sheet = worksheetOf(jobOf([{ sizes: { length: '20', width: '5' }, planted: 'half' }], table), table)
  expect(sheet.beds[0]!.at(-1)).toBe('Spreading is slower: × 1.125 for plants')
  expect(sheet.cost).toContain('Truck: $8.00')
})

it('tells a discount, the minimum charge and a tax', () => {
  const table = testTable({ minimumCharge: '200', tax: taxOf() })
  const adjustment = { by: 'share', value: '-0.1', reason: 'a neighbour' } as const
  const job = jobOf([{ shape: 'volume', sizes: { volume: '54 cu ft' } }], table)
  // 2 yd³ × 90 = 180, a tenth off is 162, 38 to the minimum of 200, and 8 % on it.
  expect(worksheetOf(job, table, { ...plainTerms, adjustment }).price).toEqual([
    'Shredded wood: 2 yd³ × $90.00, halfway between $80.00 and $100.00 = $180.00',
    'Discount (a neighbour): $180.00 × −10% = −$18.00',
    'Added to reach the minimum charge: $200.00 − $162.00 = $38.00',
    'Sales tax: $200.00 × 8% = $16.00',
    'Total: $216.00',
  ])
})

it('warns of a level load that is too heavy', () => {
  const carriers = [{ name: { en: 'the truck', es: 'la camioneta' }, volume: '2.5', payload: '1500' }]
  const table = tableWith([bulk()], { carriers })
  const sheet = worksheetOf(jobOf([{ sizes: { length: '40', width: '10' } }], table), table)
  // 1,000 lb a yd³ wet: 2.5 yd³ are 2,500 lb.
  expect(sheet.buying[0]!.steps.at(-1)).toMatch(
    /the truck weighs about 2,500 lb wet\. The limit is 1,500 lb\./,
  )
})

/** What a step says before its last equals sign, worked out by mathjs, and what it says after it. */
function sides(step: string): [worked: number, told: number] {
  const [, equation] = /^[^:]*: (.*?)(?:; × .*)?$/.exec(step)!
  const plain = equation!
    .replace(/^half round it is .*?; /, '')
    .replace(/about |not covered by plants|the mean of the squares, /g, '')
    .replace(/ft²|ft³|ft|in(?![a-z])/g, '')
    .replace(/(?<=\d),(?=\d{3})/g, '')
    .replace(/√/g, 'sqrt')
    .replace(/²/g, '^2')
    .replaceAll('×', '*')
    .replaceAll('÷', '/')
    .replaceAll('−', '-')
    .replaceAll('π', 'pi')
  const at = plain.lastIndexOf('=')
  return [evaluate(plain.slice(0, at)), Number(plain.slice(at + 1))]
}

it('its equations hold, as mathjs works them out, for any bed', () => {
  const table = testTable()
  fc.assert(
    fc.property(anyBeds, beds => {
      const job = jobOf(beds, table)
      worksheetOf(job, table).beds.forEach((steps, index) => {
        if (job.beds[index]!.sizes.volume || job.beds[index]!.shape === 'area') return
        for (const name of ['Area', 'Volume in place']) {
          const [worked, told] = sides(steps.find(step => step.startsWith(`${name}:`))!)
          // Figures are shown to two places.
          expect(Math.abs(worked - told)).toBeLessThan(0.02 + told * 0.01)
        }
      })
    }),
    { numRuns: 100 },
  )
})

it('says no nonsense, and ends with what is to be paid, whatever the job and the table', () => {
  fc.assert(
    fc.property(
      anyBeds,
      fc.array(anyWay, { minLength: 10, maxLength: 10 }),
      anyCostTable,
      fc.subarray(['edging', 'weeding']),
      (beds, ways, table, extras) => {
        const job = jobAway(beds, ways, table, extras)
        const sheet = worksheetOf(job, table)
        for (const step of allOf(sheet)) expect(step).not.toMatch(/NaN|undefined|null|Infinity|\[object/)
        const total = Number(sheet.price.at(-1)!.replace(/[^\d.]/g, ''))
        expect(total).toBe(Number(workOutPrice(job, table).total))
      },
    ),
    { numRuns: 60 },
  )
})
