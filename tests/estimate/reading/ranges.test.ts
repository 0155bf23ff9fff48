import { describe, it } from 'vitest'
import { expectMeaning, spellings } from './table.ts'

describe('a range rises', () => {
  it.each(
    spellings(`
  20-25                  22.5 ± 2.5   common
  20 - 25                22.5 ± 2.5   common
  20–25                  22.5 ± 2.5   common
  20—25                  22.5 ± 2.5
  20-25 ft               22.5 ± 2.5   common
  20 ft-25 ft            22.5 ± 2.5   common
  20 ft to 25 ft         22.5 ± 2.5   common
  20'-25'                22.5 ± 2.5   common
  20 ft - 25             22.5 ± 2.5
  20 to 25               22.5 ± 2.5   common
  20 to 25 feet          22.5 ± 2.5   common
  20 or 25               22.5 ± 2.5   common
  between 20 and 25      22.5 ± 2.5   common
  from 20 to 25          22.5 ± 2.5   common
  entre 20 y 25          22.5 ± 2.5   common
  de 20 a 25             22.5 ± 2.5   common
  20 a 25 pies           22.5 ± 2.5   common
  20 o 25                22.5 ± 2.5
  20 hasta 25            22.5 ± 2.5
  8 to 10                9 ± 1        common
  10-12                  11 ± 1       common
  12 1/2 - 13            12.75 ± 0.25
  12' 6" - 13'           12.75 ± 0.25
  12 ft 6 in to 13 ft    12.75 ± 0.25
  8 ft 3 - 8 ft 9        8.5 ± 0.25
  24 to 30 in            2.25 ± 0.25  common
  24-30"                 2.25 ± 0.25  common
  4-5 yd                 13.5 ± 1.5   common
  15-20 paces            43.75 ± 6.25
  20-20                  20
  20 to 25 ft long       22.5 ± 2.5
  20 ± 2                 20 ± 2       common
  20 ft ± 2 ft           20 ± 2       common
  20 ft ± 2              20 ± 2
  20 ± 2 ft              20 ± 2
  20 ft ± 6 in           20 ± 0.5
  20 +/- 2               20 ± 2
  20 ± 2 x 5             20 ± 2 x 5
  20 ± 6 in              ! length-unreadable
  2 ± 3                  ! length-unreadable
  20 ±                   ! length-unreadable
  25-20                  ! falls
  25 to 20               ! falls
  30 ft to 20 ft         ! falls
  10 to 9                ! falls
  30-24 in               ! falls
  entre 3 y 5            4 ± 1        common
  3 y 3                  ! length-unreadable
  5 y 20                 ! length-unreadable
  20-25-30               ! length-unreadable
  20 -                   ! length-unreadable
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
})

describe('inches that go with feet said once', () => {
  it.each(
    spellings(`
  40 ft 9-10 in          979/24 ± 1/24
  40' 9-10"              979/24 ± 1/24
  40 ft 9 to 10 in       979/24 ± 1/24
  12 ft 6-8 in           151/12 ± 1/12
  12 ft 6 to 8           151/12 ± 1/12
  5 ft 9 to 11           35/6 ± 1/12 | 8.375 ± 2.625
  12 ft 6 to 13 ft       12.75 ± 0.25
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
})

describe('a dash may be that of a drawing', () => {
  it.each(
    spellings(`
  12-6                   12.5 | 9 ± 3
  40-0                   40
  12-6"                  12.5 | 3/4 ± 1/4
  12'-6                  12.5 | 9 ± 3
  5'-6                   5.5 | 5.5 ± 0.5
  8-10                   9 ± 1 | 53/6
  5-6                    5.5 ± 0.5 | 5.5
  5-6 ft                 5.5 ± 0.5    common
  5-6"                   5.5 | 11/24 ± 1/24
  9-10 in                19/24 ± 1/24 | 59/6
  10 - 1/2               10.5 | 241/24
  10 - 1/2 ft            10.5       common
  10 - 1/2"              241/24 | 0.875
  12-11                  155/12 | 11.5 ± 0.5
  12-6 ft                ! falls
  12 to 6                ! falls
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
  it.each(
    spellings(`
  12-6                   ! falls
  6-12                   9 ± 3        common
  12'-6                  3.81 | 2.7432 ± 0.9144
  12'-6"                 3.81         common
`),
  )('in metres %s is %s', (typed, meaning) => expectMeaning('metres', typed, meaning))
})
