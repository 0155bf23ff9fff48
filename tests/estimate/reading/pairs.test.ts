import { describe, it } from 'vitest'
import { expectMeaning, spellings } from './table.ts'

describe('two sizes in one box', () => {
  it.each(
    spellings(`
  20x5                   20 x 5       common
  20 x 5                 20 x 5       common
  20 X 5                 20 x 5       common
  20×5                   20 x 5       common
  20*5                   20 x 5
  20 by 5                20 x 5       common
  20 by 5 ft             20 x 5       common
  20 por 5               20 x 5       common
  20 por 5 pies          20 x 5       common
  20 x 5 ft              20 x 5       common
  20 ft x 5 ft           20 x 5       common
  20ftx5ft               20 x 5       common
  20' x 5'               20 x 5       common
  20'x5'                 20 x 5       common
  20' x 5                20 x 5       common
  20 ft x 5              20 x 5       common
  20 ft long x 5 ft wide  20 x 5      common
  20 long by 5 wide      20 x 5
  20 x 5.5               20 x 5.5     common
  20 1/2 x 5             20.5 x 5     common
  12'6" x 5'             12.5 x 5     common
  12'6 x 5'6             12.5 x 5.5   common
  12'6"x5'6"             12.5 x 5.5   common
  2 ft 6 x 3 ft 4 in     2.5 x 10/3   common
  24" x 36"              2 x 3        common
  36 in x 20 ft          3 x 20       common
  6 m x 2 m              6/0.3048 x 2/0.3048  common
  15 x 5 paces           37.5 x 12.5
  4 x 2 yd               12 x 6       common
  about 20 x 5           ~20 x 5      common
  20 x 5 or so           ~20 x 5
  12 x about 20          12 x 20
  20-25 x 5              22.5 ± 2.5 x 5
  20 x 5 x 3             ! length-unreadable
  20 5                   ! length-unreadable
  20 x                   ! length-unreadable
  20 x 0                 ! length-not-positive
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
})

describe('a small unit at the end belongs to both, or only to the last', () => {
  it.each(
    spellings(`
  20 x 30 in             5/3 x 2.5 | 20 x 2.5
  20 x 30"               5/3 x 2.5 | 20 x 2.5
  36 x 48 in             3 x 4 | 36 x 4
  36 by 48 inches        3 x 4 | 36 x 4
  3 x 30 in              3 x 2.5 | 1/4 x 2.5
  300 x 400 cm           3/0.3048 x 4/0.3048 | 300 x 4/0.3048
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
  it.each(
    spellings(`
  3 x 400 cm             3 x 4 | 0.03 x 4
  300 x 400 cm           3 x 4 | 300 x 4
  3 x 4                  3 x 4        common
  3 x 4 m                3 x 4        common
  3,5 x 2,5              3.5 x 2.5    common
  3.5 x 2.5 m            3.5 x 2.5    common
  20 x 5 ft              6.096 x 1.524  common
`),
  )('in metres %s is %s', (typed, meaning) => expectMeaning('metres', typed, meaning))
})

describe('a unit at the start alone may be for the first alone', () => {
  it.each(
    spellings(`
  36" x 20               3 x 20 | 3 x 5/3
  36 in x 20             3 x 20 | 3 x 5/3
  6 m x 2                6/0.3048 x 2/0.3048 | 6/0.3048 x 2
  20 yd x 5              60 x 5 | 60 x 15
  20 paces x 5           50 x 12.5 | 50 x 5
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
  it.each(
    spellings(`
  3 m x 4                3 x 4        common
  400 cm x 3             4 x 3 | 4 x 0.03
  20 ft x 5              6.096 x 1.524 | 6.096 x 5
`),
  )('in metres %s is %s', (typed, meaning) => expectMeaning('metres', typed, meaning))
})
