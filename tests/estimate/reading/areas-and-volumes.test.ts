import { describe, expect, it } from 'vitest'
import { boxes, expectMeaning, spellings } from './table.ts'

// An acre is 43,560 ft², a square yard 9 ft²; NIST SP 811: a square foot is 0.09290304 m², exactly.
describe('an area', () => {
  it.each(
    spellings(`
  100                    100        common
  1,200                  1200       common
  1 200 sq ft            1200
  100 sq ft              100        common
  100 sq. ft.            100        common
  100 sqft               100        common
  100 square feet        100        common
  100 ft2                100        common
  100 ft²                100        common
  100 sf                 100        common
  100 pies cuadrados     100        common
  100 pies²              100
  10 sq yd               90         common
  10 square yards        90         common
  10 yd²                 90         common
  10 yardas cuadradas    90         common
  9.290304 m²            100        common
  9.290304 square meters  100       common
  0.1 acre               4356       common
  1/4 acre               10890      common
  ½ acre                 21780      common
  half an acre           21780      common
  a quarter acre         10890      common
  quarter acre           10890      common
  quarter of an acre     10890      common
  medio acre             21780
  1/10 acre              4356       common
  20 ft square           400 | 20   common
  4 feet square          16 | 4     common
  4 ft. square           16 | 4
  20' square             400        common
  12'6" square           156.25     common
  2 yd square            36 | 18
  10-12 ft square        122 ± 22 | 11 ± 1
  about 4 ft square      ~16 | ~4
  20 ft sq               20 | 400
  20 ft squared          20 | 400
  20 square feet         20         common
  20 sq ft               20         common
  square                 ! area-unreadable
  20 square              ! area-unreadable
  200/300                ! area-unreadable
  100-120                110 ± 10   common
  100 to 120 sq ft       110 ± 10   common
  about 100              ~100       common
  casi 100               ~100
  120-100                ! falls
  100 ft                 ! area-unreadable
  20 x 5                 ! area-unreadable
  100 ft3                ! area-unreadable
  0                      ! area-not-positive
`),
  )('in square feet %s is %s', (typed, meaning) => expectMeaning('square feet', typed, meaning))
  it.each(
    spellings(`
  10                     10         common
  10 m2                  10         common
  10 m²                  10         common
  10 metros cuadrados    10         common
  100 sq ft              9.290304   common
  1,200                  1200 | 1.2
  4 m square             16 | 4     common
  10 ft square           9.290304 | 0.9290304
`),
  )('in square metres %s is %s', (typed, meaning) => expectMeaning('square metres', typed, meaning))
})

// 27 ft³ to the cubic yard; NIST SP 811: a cubic foot is 28.316846592 L, a cubic yard 0.764554857984 m³, exactly.
describe('a volume', () => {
  it.each(
    spellings(`
  50 cubic feet          50         common
  50 cu ft               50         common
  50 cu. ft.             50         common
  50 ft3                 50         common
  50 ft³                 50         common
  50 cf                  50         common
  2 cubic yards          54         common
  2 cu yd                54         common
  2 cu. yd.              54         common
  2 yd3                  54         common
  2 yd³                  54         common
  2 cy                   54         common
  2 yards                54         common
  2 yd                   54         common
  half a yard            13.5       common
  1 1/2 yards            40.5       common
  6 yards of mulch       162        common
  a yard of shredded bark  27       common
  2 cubic yards of compost  54      common
  20 bags of 2 cu ft     40         common
  20 bags of 2 cubic feet mulch  ! volume-unreadable
  10 sacks of 3 cu ft    30
  20 2 cu ft bags        40         common
  20 1.5 cu ft bags      30         common
  20 bags of 2 cubic feet each  40  common
  2 2 cu ft              ! volume-unreadable
  veinte bolsas de 2 pies cúbicos  40
  2 yardas cúbicas       54         common
  2 yardas de corteza    54         common
  50 pies cúbicos        50         common
  2-3 yards              67.5 ± 13.5  common
  2 to 3 cubic yards     67.5 ± 13.5  common
  about 2 yards          ~54        common
  28.316846592 l         1          common
  0.764554857984 m³      27         common
  3-2 yards              ! falls
  3 y 3                  ! volume-unreadable
  3y3                    ! volume-unreadable
  2x3                    ! volume-unreadable
  20 bags                ! volume-unreadable
  2                      ! volume-unit
  50                     ! volume-unit
  2-3                    ! volume-unit
  about 2                ! volume-unit
  0 yards                ! volume-not-positive
`),
  )('in cubic feet %s is %s', (typed, meaning) => expectMeaning('cubic feet', typed, meaning))
  it.each(
    spellings(`
  1.5 m3                 1.5        common
  1,5 m³                 1.5        common
  2 metros cúbicos       2          common
  800 l                  0.8        common
  800 litros             0.8        common
  2                      ! volume-unit
`),
  )('in cubic metres %s is %s', (typed, meaning) => expectMeaning('cubic metres', typed, meaning))

  it.each([
    ['cubic feet', '2', ['54', '2']],
    ['cubic metres', '2', ['2', '0.002']],
  ] as const)('a bare one in %s is offered in each unit that is sold', (box, typed, each) => {
    const { instead = [] } = boxes[box](typed)
    const read = instead.map(spelling => boxes[box](spelling))
    expect(read.map(reading => reading.ok && reading.value.toFixed())).toEqual(each)
  })
})
