import { describe, expect, it } from 'vitest'
import { cautionsSchema } from '../../src/estimate/ballpark/caution-figures.ts'
import { staffCautions } from '../../src/estimate/ballpark/staff-cautions.ts'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { Pack } from '../../src/estimate/table/pack.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { cautionInWords } from '../../src/language/caution-in-words.ts'
import { jobOf, testTable } from './jobs.ts'
import { bag, bale, bulk } from './packs/made.ts'

// 54 ft³ in place and, without an allowance, to buy.
const bed: Partial<BedTold> = { sizes: { length: '27', width: '8' }, depth: '3' }

function given(packs: Pack[], changes: Partial<RateTable> = {}, finish = 'shredded-wood') {
  const table = testTable({ allowance: '0', ...changes })
  const finishes = table.finishes.map(one => ({ ...one, packs }))
  const bought = { ...table, finishes }
  const job = jobOf([{ ...bed, finish }], bought)
  return staffCautions(job, workOutPrice(job, bought).shopping, bought)
}

const only = (code: string, ...of: Parameters<typeof given>) =>
  given(...of).filter(caution => caution.code === code)

function withFigure(figure: string, units: RateTable['units'] = 'us'): Partial<RateTable> {
  const { cautions } = testTable({}, units)
  return { cautions: cautions.map(one => (one.code === 'lifting' ? { ...one, figure } : one)) }
}

describe('lifting', () => {
  // NIOSH 94-110: 51 lb only in the ideal lift. Wet shredded mulch is taken to weigh 1,000 lb a yd³ (common practice), so
  // a bag of 2 ft³ weighs 2/27 of that, 74 lb.
  it('warns of a wet bag that is heavier than the ideal lift', () => {
    expect(only('lifting', [bag()])).toEqual([
      {
        code: 'lifting',
        params: { figure: '51 lb', weight: '74 lb' },
        source: 'NIOSH 94-110; OSHA',
        about: expect.objectContaining({ en: 'Shredded wood, bag' }),
      },
    ])
  })

  it('goes by the weight that the owner gave of a bag, else by what it holds', () => {
    expect(only('lifting', [bag({ weightWet: '51' })])).toEqual([])
    expect(only('lifting', [bag({ weightWet: '51.1' })])[0]!.params.weight).toBe('51 lb')
    // 1.377 ft³ are 51 lb.
    expect(only('lifting', [bag({ holds: '1.377' })])).toEqual([])
    expect(only('lifting', [bag({ holds: '1.38' })])).toHaveLength(1)
    // A bale of pine straw for 20 ft² at 3 in is 5 ft³: 400 × 5 ÷ 27 is 74 lb.
    expect(only('lifting', [bale()], {}, 'pine-straw')[0]!.params.weight).toBe('74 lb')
  })

  it('says nothing of what isn’t lifted whole, or of another figure', () => {
    expect(only('lifting', [bulk()])).toEqual([])
    expect(only('lifting', [])).toEqual([])
    expect(only('lifting', [bag()], withFigure('75 lb'))).toEqual([])
    expect(only('lifting', [bag()], withFigure('75'))).toEqual([])
    // 33.5 kg are 73.9 lb, 34 kg are 75.
    expect(only('lifting', [bag()], withFigure('33.5 kg'))).toHaveLength(1)
    expect(only('lifting', [bag()], withFigure('34 kg'))).toEqual([])
  })
})

describe('the figure of lifting', () => {
  const figures = [
    '50-51 lb',
    '50 to 51 lb',
    '51 lb (23 kg)',
    '51 lb / 23 kg',
    '23 kg (51 lb)',
    'about 50 lb',
    '50 lb each',
    '50 lb max.',
    '50 lbs',
    '50',
    '51 lb (NIOSH)',
  ]
  it.each(figures)('is read as it is written, %s', figure => {
    expect(only('lifting', [bag()], withFigure(figure))[0]!.params).toEqual({ figure, weight: '74 lb' })
    expect(only('lifting', [bag({ weightWet: '49.9' })], withFigure(figure))).toEqual([])
    expect(cautionsSchema.safeParse(testTable(withFigure(figure))).success).toBe(true)
  })

  it('of a range the lower end counts, and a comma parts thousands or decimals', () => {
    expect(only('lifting', [bag()], withFigure('70-80 lb'))).toHaveLength(1)
    expect(only('lifting', [bag()], withFigure('75-80 lb'))).toEqual([])
    expect(only('lifting', [bag()], withFigure('1,000 lb'))).toEqual([])
    expect(only('lifting', [bag()], withFigure('33,5 kg'))).toHaveLength(1)
  })

  it.each(['heavy', '', '0 lb', '60-50 lb', '51 lb (40 kg)', '51 ft', 'two men'])(
    'is refused where a table is written, and the published one counts of a stored table: %j',
    figure => {
      const table = testTable(withFigure(figure))
      const at = table.cautions.findIndex(({ code }) => code === 'lifting')
      const checked = cautionsSchema.safeParse(table)
      expect(checked.error?.issues).toMatchObject([
        { path: ['cautions', at, 'figure'], message: 'needs a weight we can read, like 51 lb' },
      ])
      expect(only('lifting', [bag()], withFigure(figure))[0]!.params).toEqual({
        figure: '51 lb',
        weight: '74 lb',
      })
      const silent = table.cautions.map(one => (one.code === 'lifting' ? { ...one, shown: false } : one))
      expect(cautionsSchema.safeParse({ ...table, cautions: silent }).success).toBe(true)
      expect(only('lifting', [bag()], { cautions: silent })).toEqual([])
    },
  )
})

describe('what a truck carries', () => {
  it('is told for every finish by its wet weight, of all that is bought', () => {
    // 2 yd³ at 1,000, 1,350 and 3,120 lb; 27.5 bags of 2 ft³ would be 28.
    for (const [finish, weight] of [
      ['shredded-wood', '2,000 lb'],
      ['compost', '2,700 lb'],
      ['stone', '6,240 lb'],
    ] as const)
      expect(only('payload', [bulk()], {}, finish)[0]!.params.weight).toBe(weight)
    expect(only('payload', [], {}, 'stone')[0]!.params.weight).toBe('6,240 lb')
  })

  it('is not, where the weight isn’t known', () => {
    const finishes = testTable().finishes.map(one => ({ ...one, densityWet: null }))
    expect(only('payload', [], { finishes })).toEqual([])
  })
})

it('a loose pile is told of where one is bought of what can heat up', () => {
  expect(only('pile', [bulk()])).toMatchObject([{ about: { en: 'Shredded wood' } }])
  expect(only('pile', [bag()])).toEqual([])
  expect(only('pile', [bulk()], {}, 'stone')).toEqual([])
})

it('weed killer, cocoa hulls and the owner’s own go with what they are ticked on, in the owner’s words', () => {
  const table = testTable()
  const own = {
    code: 'gate-dog',
    shown: true,
    readBy: 'staff' as const,
    figure: '2 people',
    source: 'Our own rule',
    words: { en: 'Never alone: {figure}, and {other}.', es: 'Nunca a solas: {figure}.' },
  }
  const changed = {
    ...table,
    cautions: [...table.cautions, own],
    finishes: table.finishes.map(one => ({ ...one, cautions: ['cocoa', 'gate-dog'] })),
    extras: table.extras.map(one => ({ ...one, cautions: ['weed-killer'] })),
  }
  const job = jobOf([bed], changed, ['weeding'])
  const all = staffCautions(job, workOutPrice(job, changed).shopping, changed)
  expect(all.map(({ code }) => code)).toEqual(['payload', 'cocoa', 'gate-dog', 'weed-killer'])
  expect(cautionInWords(all[2]!, changed, 'en')).toBe('Never alone: 2 people, and {other}.')
  expect(cautionInWords(all[2]!, changed, 'es')).toBe('Nunca a solas: 2 people.')
  expect(cautionInWords(all[3]!, changed, 'en')).toContain('takes a license')
})
