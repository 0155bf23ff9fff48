import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import { outlineOf } from '../../src/estimate/job/outline.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { t } from '../../src/language/catalogue.ts'
import { bedOf, jobOf, testTable, toldBed } from './jobs.ts'

const table = testTable()

function faultsOf(body: unknown): string[] {
  const reading = readTold(body, table)
  return reading.ok ? [] : reading.faults.map(fault => `${fault.field} ${fault.key}`)
}

const faultsWith = (changes: Record<string, unknown>) => faultsOf({ beds: [{ ...toldBed(), ...changes }] })

describe('beds as sent', () => {
  it('understands every field', () => {
    const bed = bedOf({ count: '3', measuredBy: 'paces', planted: 'half', lying: 'fair', depth: '2 in' })
    expect(bed).toMatchObject({
      shape: 'rectangle',
      count: 3,
      measuredBy: 'paces',
      planted: 'half',
      usual: false,
    })
    expect([bed.sizes.length!.value, bed.sizes.width!.value, bed.depth].map(Number)).toEqual([20, 5, 2])
    expect([Number(bed.lying.m), Number(bed.lying.s)]).toEqual([1, 0.25])
    expect(bed.finish.slug).toBe('shredded-wood')
  })

  it('takes numbers where text is usual', () => {
    const reading = readTold({ beds: [{ ...toldBed(), sizes: { length: 20, width: 5.5 }, depth: 3 }] }, table)
    expect(reading.ok && reading.job.beds[0]!.sizes.width!.value.toNumber()).toBe(5.5)
  })

  it('takes the usual depth where none is given', () => {
    expect(bedOf({ depth: '' })).toMatchObject({ usual: true })
    const { depth: _, ...without } = toldBed({ finish: 'compost' })
    const reading = readTold({ beds: [without] }, table)
    expect(reading.ok && reading.job.beds[0]!.depth.toNumber()).toBe(2)
  })

  it('takes a depth for what lies there', () => {
    const { lying } = bedOf({ lying: '1 1/2"' })
    expect([Number(lying.m), Number(lying.s)]).toEqual([1.5, 0.25])
    expect(Number(bedOf({ lying: '1-2' }).lying.s)).toBe(0.25)
    expect(Number(bedOf({ lying: '0' }).lying.m)).toBe(0)
  })

  it('fills the next size from 20x5 where that one is empty', () => {
    const { length, width } = bedOf({ sizes: { length: 'about 20x5', width: ' ' } }).sizes
    expect([length, width].map(size => [Number(size!.value), size!.about])).toEqual([
      [20, true],
      [5, true],
    ])
  })

  it('refuses a second size with nowhere to go', () => {
    expect(faultsWith({ sizes: { length: '20x5', width: '6' } })).toEqual([
      'beds.0.sizes.width fault.size-twice',
    ])
    expect(faultsWith({ sizes: { length: '20', width: '5x6' } })).toEqual([
      'beds.0.sizes.width fault.size-twice',
    ])
    expect(faultsWith({ shape: 'circle', sizes: { diameter: '5x6' } })).toEqual([
      'beds.0.sizes.diameter fault.size-twice',
    ])
  })

  it('passes over the sizes of other shapes', () => {
    expect(Object.keys(bedOf({ shape: 'circle', sizes: { diameter: '9', length: 'x' } }).sizes)).toEqual([
      'diameter',
    ])
  })

  it('echoes what was understood by field, beside what was not', () => {
    const reading = readTold({ beds: [toldBed({ sizes: { length: "12'6", width: '?' } }), toldBed()] }, table)
    expect(reading.ok).toBe(false)
    expect(reading.echoes['beds.0.sizes.length']).toBe('= 12 ft 6 in')
    expect(!reading.ok && reading.readable.map(bed => bed?.shape ?? null)).toEqual([null, 'rectangle'])
  })

  it('says plainly when an extra is asked for and none is offered', () => {
    const reading = readTold({ beds: [toldBed()], extras: ['edging'] }, testTable({ extras: [] }))
    expect(reading.ok ? [] : reading.faults.map(({ field, key }) => `${field} ${key}`)).toEqual([
      'extras.0 fault.no-extras',
    ])
  })

  it('reads extras once each, and a postcode', () => {
    const job = jobOf([{}], table, ['weeding', 'edging', 'weeding'], ' 43004 ')
    expect(job.extras.map(extra => extra.slug)).toEqual(['edging', 'weeding'])
    expect(job.postcode).toBe('43004')
  })
})

describe('faults', () => {
  it.each([
    [null, ['beds fault.beds-missing']],
    ['beds', ['beds fault.beds-missing']],
    [[], ['beds fault.beds-missing']],
    [{ beds: [] }, ['beds fault.beds-missing']],
    [{ beds: { 0: toldBed() } }, ['beds fault.beds-missing']],
    [{ beds: Array.from({ length: 41 }, () => toldBed()) }, ['beds fault.beds-too-many']],
    // 40 × 26 figures.
    [
      {
        beds: Array.from({ length: 40 }, () =>
          toldBed({ shape: 'radii', sizes: { radii: '9 '.repeat(26) } }),
        ),
      },
      ['beds fault.figures-too-many'],
    ],
    [
      { beds: Array.from({ length: 40 }, () => toldBed({ cutOuts: '1 ft; '.repeat(30) })) },
      ['beds fault.figures-too-many'],
    ],
    [
      { beds: [toldBed({ shape: 'radii', sizes: { radii: Array(1001).fill(1e300) as never } })] },
      ['beds fault.figures-too-many'],
    ],
    [{ beds: [toldBed()], extras: ['gold'] }, ['extras.0 fault.extra']],
    [{ beds: [toldBed()], extras: {} }, ['extras.0 fault.extra']],
    [{ beds: [toldBed()], postcode: ['1'] }, ['postcode fault.postcode']],
    [{ beds: [toldBed()], postcode: '1'.repeat(21) }, ['postcode fault.postcode']],
  ])('of the whole %#', (body, faults) => {
    expect(faultsOf(body)).toEqual(faults)
  })

  it.each([
    [{ shape: 'blob' }, ['beds.0.shape fault.shape']],
    [{ shape: '__proto__' }, ['beds.0.shape fault.shape']],
    [
      { sizes: null },
      ['beds.0.sizes.length fault.length-missing', 'beds.0.sizes.width fault.length-missing'],
    ],
    [
      { sizes: { length: [], width: {} } },
      ['beds.0.sizes.length fault.length-unreadable', 'beds.0.sizes.width fault.length-unreadable'],
    ],
    [{ sizes: { length: Number.NaN, width: 5 } }, ['beds.0.sizes.length fault.length-unreadable']],
    [{ sizes: { length: -20, width: 5 } }, ['beds.0.sizes.length fault.length-not-positive']],
    [{ shape: 'ring', sizes: { outer: '5', inner: '5' } }, ['beds.0.sizes.inner fault.ring-inner']],
    [{ shape: 'sides', sizes: { a: '3', b: '9', c: '5' } }, ['beds.0.sizes.b fault.sides']],
    [{ shape: 'sides', sizes: { a: '3', b: '8', c: '5' } }, ['beds.0.sizes.b fault.sides']],
    [{ shape: 'sides', sizes: { a: '10', b: '10', c: '17.1' } }, ['beds.0.sizes.c fault.sides-flat']],
    [
      { shape: 'l-shape', sizes: { length: '9', width: '6', cutLength: '9', cutWidth: '2' } },
      ['beds.0.sizes.cutLength fault.cut-length'],
    ],
    [
      { shape: 'l-shape', sizes: { length: '9', width: '6', cutLength: '2', cutWidth: '7' } },
      ['beds.0.sizes.cutWidth fault.cut-width'],
    ],
    [{ shape: 'area', sizes: { area: 'big' } }, ['beds.0.sizes.area fault.area-unreadable']],
    [{ shape: 'volume', sizes: {} }, ['beds.0.sizes.volume fault.volume-missing']],
    [{ count: 0 }, ['beds.0.count fault.count']],
    [{ count: 100 }, ['beds.0.count fault.count']],
    [{ count: 1.5 }, ['beds.0.count fault.count']],
    [{ count: true }, ['beds.0.count fault.count']],
    [{ measuredBy: 'drone' }, ['beds.0.measuredBy fault.measured-by']],
    [{ planted: null }, ['beds.0.planted fault.planted']],
    [{ lying: 'lots' }, ['beds.0.lying fault.lying']],
    [{ lying: undefined }, ['beds.0.lying fault.lying']],
    [{ finish: 'gold' }, ['beds.0.finish fault.finish']],
    [{ depth: 'deep' }, ['beds.0.depth fault.depth-unreadable']],
    [{ depth: '0' }, ['beds.0.depth fault.depth-not-positive']],
    [{ depth: {} }, ['beds.0.depth fault.depth-unreadable']],
  ])('of a bed %#', (changes, faults) => {
    expect(faultsWith(changes)).toEqual(faults)
  })

  it('lists every fault of every bed at once, in the catalogue’s words', () => {
    const reading = readTold(
      { beds: [{}, null, 7, toldBed({ finish: 'gold' })], extras: [1], postcode: {} },
      table,
    )
    const faults = reading.ok ? [] : reading.faults
    expect(new Set(faults.map(fault => fault.field.split('.').slice(0, 2).join('.')))).toEqual(
      new Set(['beds.0', 'beds.1', 'beds.2', 'beds.3', 'extras.0', 'postcode']),
    )
    for (const { key, params } of faults) {
      expect(t('en', key, params)).not.toMatch(/\{\w+\}/)
      expect(t('es', key, params)).not.toMatch(/\{\w+\}/)
    }
  })
})

it('gives a range or faults, never a crash or NaN, whatever is sent', () => {
  const junk = fc.oneof(
    fc.anything({ maxDepth: 1 }),
    fc.string({ maxLength: 12 }),
    fc.constantFrom('12', '1e9', '0.001'),
  )
  const bed = fc.record(
    {
      shape: fc.oneof(
        { weight: 40, arbitrary: fc.constantFrom('rectangle', 'ring', 'area', 'volume', 'oval') },
        junk,
      ),
      sizes: fc.oneof(
        fc.dictionary(fc.constantFrom('length', 'width', 'outer', 'inner', 'area', 'volume'), junk),
        {
          weight: 8,
          arbitrary: fc.record({
            length: fc.constantFrom('20x5', '0.001', '100000', '0.01-90000', 'about 3'),
            outer: fc.constantFrom('5', '100000', '1-9'),
            inner: fc.constantFrom('4.9999', '0.001', 'about 1'),
            area: fc.constantFrom('10000000', '0.001', '1-10000'),
            volume: fc.constantFrom('1000000', 'about 2 yd', '1-99'),
          }),
        },
        junk,
      ),
      count: fc.oneof({ weight: 40, arbitrary: fc.constantFrom(1, '99') }, junk),
      measuredBy: fc.oneof({ weight: 40, arbitrary: fc.constantFrom('tape', 'eye') }, junk),
      planted: fc.oneof({ weight: 40, arbitrary: fc.constantFrom('open', 'full') }, junk),
      lying: fc.oneof({ weight: 40, arbitrary: fc.constantFrom('bare', 'unsure', '48', '0-40') }, junk),
      finish: fc.oneof({ weight: 40, arbitrary: fc.constantFrom('stone', 'compost') }, junk),
      depth: fc.oneof({ weight: 40, arbitrary: fc.constantFrom('', '0.001', '48') }, junk),
    },
    { requiredKeys: ['shape', 'sizes', 'count', 'measuredBy', 'planted', 'lying', 'finish'] },
  )
  const body = fc.oneof(
    { weight: 9, arbitrary: fc.record({ beds: fc.array(bed, { maxLength: 3 }) }) },
    fc.anything(),
  )
  let ranges = 0
  fc.assert(
    fc.property(body, sent => {
      const reading = readTold(sent, table)
      if (!reading.ok) {
        expect(reading.faults.length).toBeGreaterThan(0)
        return
      }
      ranges++
      const ballpark = workOutBallpark(reading.job, table)
      const shown = JSON.stringify([ballpark, reading.job.beds.map(outlineOf)])
      expect(shown).not.toMatch(/NaN|Infinity/)
      expect(Number(ballpark.range.low)).toBeLessThanOrEqual(Number(ballpark.range.high))
    }),
    { numRuns: 600 },
  )
  expect(ranges).toBeGreaterThan(25)
})
