import { describe, it } from 'vitest'
import { expectMeaning, spellings } from './table.ts'

describe('an area or a volume for a length', () => {
  it.each(
    spellings(`
  400 ft2                ! is-area
  400ft2                 ! is-area
  400 ft²                ! is-area
  400 ft^2               ! is-area
  12 m2                  ! is-area
  12 m²                  ! is-area
  400 sq ft              ! is-area
  400 sq. ft.            ! is-area
  400 square feet        ! is-area
  400 sf                 ! is-area
  40 sq yd               ! is-area
  40 yd2                 ! is-area
  1/4 acre               ! is-area
  half an acre           ! is-area
  400 pies cuadrados     ! is-area
  12 metros cuadrados    ! is-area
  3 yd3                  ! is-volume
  3 yd³                  ! is-volume
  3 cubic yards          ! is-volume
  50 cu ft               ! is-volume
  50 ft3                 ! is-volume
  2 m3                   ! is-volume
  800 liters             ! is-volume
  3 yardas cúbicas       ! is-volume
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
  it.each(
    spellings(`
  12 m2                  ! is-area
  12m2                   ! is-area
  12 m²                  ! is-area
  2 m3                   ! is-volume
`),
  )('in metres %s is %s', (typed, meaning) => expectMeaning('metres', typed, meaning))
  it.each(
    spellings(`
  3 sq ft                ! is-area
  3 cubic feet           ! is-volume
`),
  )('in inches %s is %s', (typed, meaning) => expectMeaning('inches', typed, meaning))
})

describe('what is no length, or could be too much', () => {
  it.each(
    spellings(`
  abc                    ! length-unreadable
  x                      ! length-unreadable
  ?                      ! length-unreadable
  '                      ! length-unreadable
  12..5                  ! length-unreadable
  12.5.6                 ! length-unreadable
  1,20,0                 ! length-unreadable
  1e5                    ! length-unreadable
  5 kg                   ! length-unreadable
  12²                    ! length-unreadable
  3y3                    ! length-unreadable
  20a25                  ! length-unreadable
  12 6                   ! length-unreadable
  20 30                  ! length-unreadable
  12'15                  ! length-unreadable
  12' 12                 ! length-unreadable
  1’200                  ! length-unreadable
  1 yd 5                 ! length-unreadable
  12 in 6 ft             ! length-unreadable
  20 in length           ! length-unreadable
  12 in diameter         ! length-unreadable
  12 ft 6 m 3            ! length-unreadable
  --                     ! length-unreadable
  20 ft +                ! length-unreadable
  0                      ! length-not-positive
  0 ft                   ! length-not-positive
  -5                     ! length-not-positive
  - 5                    ! length-not-positive
  200000                 ! length-absurd
  5-200000               ! length-absurd
  20 miles               ! length-unreadable
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
})
