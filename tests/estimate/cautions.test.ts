import { describe, expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import { cautionsSchema } from '../../src/estimate/ballpark/caution-figures.ts'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { starterTable } from '../../src/estimate/starter/starter.ts'
import { type CautionCode, cautionCodes } from '../../src/estimate/table/caution.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { t } from '../../src/language/catalogue.ts'
import { jobOf, testTable } from './jobs.ts'

function given(bed: Partial<BedTold>, table: RateTable = testTable(), extras: string[] = [], postcode = '') {
  return workOutBallpark(jobOf([bed], table, extras, postcode), table).cautions
}

const codes = (...of: Parameters<typeof given>) => given(...of).map(caution => caution.code)

describe('cautions, where they matter', () => {
  it('a depth outside the finish’s own', () => {
    expect(codes({ depth: '4' })).not.toContain('depth-over')
    expect(given({ depth: '4.5' })[0]).toMatchObject({
      code: 'depth-over',
      params: { bed: '1', depth: '4.5 in', greatest: '4 in' },
      source: expect.stringContaining('UF/IFAS'),
    })
    expect(given({ depth: '1.5' })[0]).toMatchObject({ code: 'depth-under', params: { least: '2 in' } })
  })

  it('a 900 ft bed asks whether that is right, a 300 ft one doesn’t', () => {
    expect(given({ sizes: { length: '900', width: '5' } })[0]).toMatchObject({
      code: 'large-size',
      params: { bed: '1', size: '900 ft' },
    })
    expect(codes({ sizes: { length: '300', width: '5' } })).not.toContain('large-size')
    const metric = testTable({}, 'metric')
    expect(codes({ sizes: { length: '91', width: '2' }, depth: '5' }, metric)).toContain('large-size')
    expect(codes({ sizes: { length: '90', width: '2' }, depth: '5' }, metric)).not.toContain('large-size')
  })

  it('the figure is read as it is written; one that can’t be is refused, and the published one counts', () => {
    const table = (figure: string) => {
      const { cautions } = testTable()
      return testTable({
        cautions: cautions.map(one => (one.code === 'large-size' ? { ...one, figure } : one)),
      })
    }
    const large = (feet: string, figure: string) =>
      codes({ sizes: { length: feet, width: '5' } }, table(figure)).includes('large-size')
    for (const figure of ['200 ft (61 m)', 'about 200 ft', '200-220 ft', '200 ft each', '61 m / 200 ft']) {
      expect([large('199', figure), large('205', figure)], figure).toEqual([false, true])
      expect(cautionsSchema.safeParse(table(figure)).success, figure).toBe(true)
    }
    for (const figure of ['', 'huge', '20 x 30 ft', '200 ft (200 m)', '50 lb']) {
      expect([large('300', figure), large('301', figure)], figure).toEqual([false, true])
      expect(cautionsSchema.safeParse(table(figure)).error?.issues[0]?.message, figure).toBe(
        'needs a length we can read, like 300 ft',
      )
    }
  })

  it('so does an area beyond 300 ft square, and a volume beyond what that takes', () => {
    const large = (shape: string, sizes: Record<string, string>, depth = '3') =>
      given({ shape, sizes, depth }).flatMap(({ code, params }) =>
        code === 'large-size' ? [params.size] : [],
      )
    expect(large('area', { area: '90000' })).toEqual([])
    expect(large('area', { area: '90001' })).toEqual(['90,001 ft²'])
    // 300 × 300 × 0.25 ft.
    expect(large('volume', { volume: '22500 cu ft' })).toEqual([])
    expect(large('volume', { volume: '22680 cu ft' })).toEqual(['22,680 ft³ (840 yd³)'])
    expect(large('volume', { volume: '22680 cu ft' }, '4')).toEqual([])
  })

  it('and a list, by one of its figures or by all of them together', () => {
    const large = (shape: string, sizes: Record<string, string>) =>
      given({ shape, sizes }).flatMap(({ code, params }) => (code === 'large-size' ? [params.size] : []))
    expect(large('offsets', { spacing: '100', offsets: '5 5 5 5' })).toEqual([])
    expect(large('offsets', { spacing: '100', offsets: '5 5 5 5 5' })).toEqual(['400 ft'])
    expect(large('offsets', { spacing: '10', offsets: '5 500 5' })).toEqual(['500 ft'])
    expect(large('uneven-offsets', { spacings: '250 60', offsets: '5 5 5' })).toEqual(['310 ft'])
    expect(large('radii', { radii: '151 '.repeat(8) })).toEqual(['302 ft'])
  })

  it('a postcode not served, unless none was given or every place is', () => {
    const table = testTable({ travel: [{ postcodes: ['43*'], charge: '0', drive: null, driven: null }] })
    expect(codes({}, table, [], '10001')).toContain('postcode-not-served')
    expect(codes({}, table, [], '')).not.toContain('postcode-not-served')
    expect(codes({}, table, [], '43210')).not.toContain('postcode-not-served')
    expect(codes({}, testTable(), [], '10001')).not.toContain('postcode-not-served')
  })

  it('fire, siding and trunks for what burns; nothing of trucks, which are the staff’s', () => {
    expect(codes({ finish: 'pine-straw' })).toEqual(['fire', 'clearance', 'trunks'])
    expect(codes({ finish: 'stone' })).toEqual(['trunks'])
  })

  it('the load for stone, where homeowners read it as they did before', () => {
    const table = testTable()
    const cautions = table.cautions.map(one => ({ ...one, readBy: 'everyone' as const }))
    // 100 ft² at 3 in is 25 ft³; with 5 % and at 3,120 lb a yd³: 25 ÷ 27 × 1.05 × 3,120 = 3,033.
    expect(given({ finish: 'stone' }, { ...table, cautions })[0]).toMatchObject({
      code: 'payload',
      params: { weight: '3,033 lb' },
    })
  })

  it('digging for an edge, and the edge that isn’t known', () => {
    expect(codes({ finish: 'stone' }, testTable(), ['edging'])).toEqual(['trunks', 'digging'])
    const area = { shape: 'area', sizes: { area: '50' }, finish: 'stone' }
    expect(codes(area, testTable(), ['edging'])).toEqual(['edge-unknown', 'trunks', 'digging'])
    expect(codes(area)).toEqual(['trunks'])
  })

  it('show the owner’s figure, and none that the owner took out, switched off or keeps to the staff', () => {
    const words = { en: null, es: null }
    const fire = { code: 'fire', figure: '24 in', source: 'Local ordinance', words } as const
    const shownAs = (changes: Pick<RateTable['cautions'][number], 'shown' | 'readBy'>) =>
      given({}, testTable({ cautions: [{ ...fire, ...changes }] }))
    expect(shownAs({ shown: true, readBy: 'everyone' })).toEqual([
      { code: 'fire', params: { figure: '24 in' }, source: 'Local ordinance' },
    ])
    expect(shownAs({ shown: false, readBy: 'everyone' })).toEqual([])
    expect(shownAs({ shown: true, readBy: 'staff' })).toEqual([])
  })

  it('all have a source to start with, and a text in both languages', () => {
    const started = starterTable('us').cautions
    expect(started.map(caution => caution.code).sort()).toEqual([...cautionCodes].sort())
    for (const { code, source } of started) {
      expect(source).not.toBe('')
      expect(t('en', `caution.${code as CautionCode}`)).not.toBe(t('es', `caution.${code as CautionCode}`))
    }
  })
})
