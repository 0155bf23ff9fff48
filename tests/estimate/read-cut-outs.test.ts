import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bedQuantities } from '../../src/estimate/job/quantities.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { valuesOf } from '../../src/estimate/shapes/sizes.ts'
import { bedOf, testTable, toldBed } from './jobs.ts'

const table = testTable()

/** A 20 × 20 ft bed with this cut out of it. */
function read(cutOuts: unknown, changes: Record<string, unknown> = {}, units: 'us' | 'metric' = 'us') {
  const bed = { ...toldBed({ sizes: { length: '20', width: '20' } }), depth: '', cutOuts, ...changes }
  return readTold({ beds: [bed] }, units === 'us' ? table : testTable({}, 'metric'))
}

/** As '3 circle 2', '1 rectangle 4 3'. */
function shapesOf(cutOuts: unknown, units: 'us' | 'metric' = 'us') {
  const reading = read(cutOuts, {}, units)
  if (!reading.ok) return reading.faults.map(({ field, key }) => `${field} ${key}`)
  return reading.job.beds[0]!.cutOuts.map(({ shape, sizes, count }) =>
    [count, shape, ...Object.values(valuesOf(sizes)).map(value => value.toNumber())].join(' '),
  )
}

describe('what is cut out, as people write it', () => {
  it.each<[unknown, string[]]>([
    ['', []],
    [null, []],
    [undefined, []],
    [[], []],
    [' ; \n ', []],
    ['4 x 3 ft', ['1 rectangle 4 3']],
    ['4 ft by 3 ft', ['1 rectangle 4 3']],
    ['2 ft', ['1 circle 2']],
    ['2 ft across', ['1 circle 2']],
    ['2 ft in diameter', ['1 circle 2']],
    ['diameter 2 ft', ['1 circle 2']],
    ['⌀ 2 ft', ['1 circle 2']],
    ['circle of 2 ft', ['1 circle 2']],
    ['2 ft circle', ['1 circle 2']],
    ['three of 2 ft', ['3 circle 2']],
    ['two feet across', ['1 circle 2']],
    [2, ['1 circle 2']],
    ['10 sq ft', ['1 area 10']],
    ['10 ft²', ['1 area 10']],
    ['10 ft2', ['1 area 10']],
    ['10 square feet', ['1 area 10']],
    ['3 of 2 ft', ['3 circle 2']],
    ['3 of 2 ft across', ['3 circle 2']],
    ['3 of 4 x 3 ft', ['3 rectangle 4 3']],
    ['2 of 5 sq ft', ['2 area 5']],
    ['3 of 1/2 ft', ['3 circle 0.5']],
    ["1' 6 x 2' 3", ['1 rectangle 1.5 2.25']],
    ['4 x 3 ft; 2 ft across; 10 sq ft', ['1 rectangle 4 3', '1 circle 2', '1 area 10']],
    ['4 x 3 ft\n2 ft across\r\n10 sq ft;', ['1 rectangle 4 3', '1 circle 2', '1 area 10']],
    ['4 x 3 ft, 2 ft across', ['1 rectangle 4 3', '1 circle 2']],
    ['4 x 3 ft, 2 of 2 ft; 10 sq ft', ['1 rectangle 4 3', '2 circle 2', '1 area 10']],
    ['4,3', ['1 circle 4.3']],
    ['4, 3', ['1 circle 4', '1 circle 3']],
    [
      ['4 x 3 ft', '2 ft', 3],
      ['1 rectangle 4 3', '1 circle 2', '1 circle 3'],
    ],
    ['4 x 3 pies', ['1 rectangle 4 3']],
    ['4 por 3 pies', ['1 rectangle 4 3']],
    ['2 pies de ancho', ['1 circle 2']],
    ['2 de ancho', ['1 circle 2']],
    ['2 pies de diámetro', ['1 circle 2']],
    ['3 de 2 pies', ['3 circle 2']],
    ['3 de 2 pies de ancho', ['3 circle 2']],
    ['círculo de 2 pies', ['1 circle 2']],
    ['10 pies cuadrados', ['1 area 10']],
  ])('%j', (typed, shapes) => {
    expect(shapesOf(typed)).toEqual(shapes)
  })

  it('in metres, with decimal commas', () => {
    expect(shapesOf('2,5 x 3 m; 2 de 0,6 m de ancho; 1 m2; 1 m 20', 'metric')).toEqual([
      '1 rectangle 2.5 3',
      '2 circle 0.6',
      '1 area 1',
      '1 circle 1.2',
    ])
  })

  it('keeps a guess a guess', () => {
    const { cutOuts } = bedOf({ cutOuts: 'about 4 x 3 ft; 2-3 ft' })
    expect([cutOuts[0]!.sizes.length!.about, cutOuts[0]!.sizes.width!.about]).toEqual([true, true])
    expect(cutOuts[1]!.sizes.diameter!.spread!.toNumber()).toBe(0.25)
  })

  it('echoes what was understood, for every language alike', () => {
    expect(read('3 of 2 ft, 4 x 3; 10 sq ft; about 2 x 1 ft').echoes['beds.0.cutOuts']).toBe(
      '= 3 × (⌀ 2 ft); 4 ft × 3 ft; 10 ft²; ≈ 2 ft × 1 ft',
    )
  })

  it('knows the other reading of one of them', () => {
    const reading = read('2 ft; 3 of 20 x 30 in')
    expect(reading.instead['beds.0.cutOuts']).toEqual(['2 ft; 3 of 20 ft x 30 in'])
    expect(read('2 ft; 3 of 20 ft x 30 in').instead).toEqual({})
  })

  it('a square is one by its side, or so many square feet', () => {
    expect(shapesOf('4 ft square; 2 of 3 ft square')).toEqual(['1 area 16', '2 area 9'])
    expect(read('4 ft square').instead['beds.0.cutOuts']).toEqual(['4 ft²'])
    expect(shapesOf('4 ft sq')).toEqual(['1 area 4'])
    expect(read('4 ft sq').instead['beds.0.cutOuts']).toEqual(['16 ft²'])
  })

  it('reads an array as one text', () => {
    const [sent, typed] = [read(['4 x 3 ft', '2 ft']), read('4 x 3 ft; 2 ft')]
    expect(sent.ok && sent.job.beds[0]!.cutOuts).toEqual(typed.ok && typed.job.beds[0]!.cutOuts)
  })
})

describe('refused beside the field', () => {
  it.each<[unknown, string]>([
    ['a tree', 'a tree'],
    ['4 x 3 ft; a tree', 'a tree'],
    ['2 ft, a tree', 'a tree'],
    // Two feet across or two feet round? It isn't said.
    ['2 ft round', '2 ft round'],
    // Twelve inches, or twelve in diameter.
    ['12 in diameter', '12 in diameter'],
    ['4 x 3 ft across', '4 x 3 ft across'],
    ['10 sq ft across', '10 sq ft across'],
    ['4 x 3 x 2', '4 x 3 x 2'],
    ['0 of 2 ft', '0 of 2 ft'],
    ['100 of 2 ft', '100 of 2 ft'],
    ['-2 ft', '-2 ft'],
    ['0', '0'],
    [{}, '?'],
    [['2 ft', {}], '?'],
  ])('%j, with the part that can’t be read', (typed, part) => {
    const reading = read(typed)
    expect(reading.ok ? [] : reading.faults).toEqual([
      { field: 'beds.0.cutOuts', key: 'fault.cut-outs', params: { typed: part } },
    ])
  })

  it.each([
    ['20 x 20', 'fault.cut-outs-large'],
    ['20 x 10; 20 x 10', 'fault.cut-outs-large'],
    ['99 of 3 x 2', 'fault.cut-outs-large'],
    ['100000 ft', 'fault.cut-outs-large'],
    ['1 in;'.repeat(41), 'fault.cut-outs-many'],
    ['1 in,'.repeat(41), 'fault.cut-outs-many'],
    [`${'1 in;'.repeat(40)} a tree`, 'fault.cut-outs-many'],
    // Nothing after what can't be read is read.
    [`a tree;${'1 in;'.repeat(41)}`, 'fault.cut-outs'],
    [`a tree,${'1 in,'.repeat(41)}`, 'fault.cut-outs'],
  ])('%s is too much', (typed, key) => {
    expect(shapesOf(typed)).toEqual([`beds.0.cutOuts ${key}`])
  })

  it.each([
    ['eye', '14 x 14', []],
    ['eye', '15 x 15', ['beds.0.cutOuts fault.cut-outs-unsure']],
    ['paces', '16 x 16', []],
    ['paces', '19 x 19', ['beds.0.cutOuts fault.cut-outs-unsure']],
    ['tape', '18 x 18', []],
    ['tape', '19.5 x 19.5', ['beds.0.cutOuts fault.cut-outs-unsure']],
  ])(
    'so much, measured by %s, that nothing could be promised of the rest: %s',
    (measuredBy, typed, faults) => {
      const reading = read(typed, { measuredBy })
      expect(reading.ok ? [] : reading.faults.map(({ field, key }) => `${field} ${key}`)).toEqual(faults)
    },
  )

  it('out of a volume, which has no outline', () => {
    const reading = read('2 ft', { shape: 'volume', sizes: { volume: '50 cu ft' } })
    expect(reading.ok ? [] : reading.faults.map(fault => fault.key)).toEqual(['fault.cut-outs-volume'])
  })
})

describe('the area that is left', () => {
  const figures = (changes: Parameters<typeof bedOf>[0]) => bedQuantities(bedOf(changes), table)

  it('is the outline less what is cut out, and the edge stays the outline’s', () => {
    const { area, edge, inPlace } = figures({ cutOuts: '4 x 2 ft; 2 of 6 sq ft' })
    expect([area, edge, inPlace].map(Number)).toEqual([80, 50, 20])
    expect(figures({ cutOuts: '2 of 2 ft across' }).area.toNumber()).toBeCloseTo(100 - 2 * Math.PI, 12)
    expect(figures({ shape: 'area', sizes: { area: '50' }, cutOuts: '10 sq ft' }).area.toNumber()).toBe(40)
  })

  it('is the same for a ring as for a circle with a circle cut out', () => {
    const ring = figures({ shape: 'ring', sizes: { outer: '10', inner: '4' } })
    const cut = figures({ shape: 'circle', sizes: { diameter: '10' }, cutOuts: '4 ft' })
    expect(cut.area.toNumber()).toBeCloseTo(ring.area.toNumber(), 12)
  })
})

it('whatever is typed is read or refused, never a crash, and something is always left', () => {
  const text = fc.stringMatching(/^[0-9 ;,.x\nftofsqde²/-]{0,30}$/)
  fc.assert(
    fc.property(fc.oneof(fc.string(), text, fc.anything(), fc.array(text)), sent => {
      const reading = read(sent)
      if (!reading.ok) {
        expect(reading.faults[0]!.field).toBe('beds.0.cutOuts')
        return
      }
      const { area } = bedQuantities(reading.job.beds[0]!, table)
      expect(area.gt(0) && area.lte(400)).toBe(true)
    }),
    { numRuns: 500 },
  )
})
