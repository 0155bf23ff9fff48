import { it } from 'vitest'
import { expectMeaning, spellings } from './table.ts'

it.each(
  spellings(`
  3                      3          common
  3 in                   3          common
  3"                     3          common
  3 inches               3          common
  3 in.                  3          common
  3 inches deep          3          common
  3" deep                3          common
  3 deep                 3
  3 in. thick            3          common
  three inches           3
  two and a half inches  2.5
  2 1/2                  2.5        common
  2½"                    2.5        common
  2.5                    2.5        common
  2,5                    2.5
  half an inch           1/2        common
  1/4                    1/4        common
  2-3                    2.5 ± 0.5  common
  2-3 in                 2.5 ± 0.5  common
  2 to 3 inches          2.5 ± 0.5  common
  2-3" deep              2.5 ± 0.5  common
  about 3                ~3         common
  almost 3 in            ~3         common
  7.62 cm                3          common
  76.2 mm                3          common
  2.54-5.08 cm           1.5 ± 0.5
  0.25 ft                3          common
  3 pulgadas             3          common
  tres pulgadas          3
  3 pulgadas de profundidad  3      common
  3-2                    ! falls
  3x3                    ! depth-unreadable
  3 lb                   ! depth-unreadable
  0                      ! depth-not-positive
  49                     ! depth-absurd
`),
)('in inches %s is %s', (typed, meaning) => expectMeaning('inches', typed, meaning))

it.each(
  spellings(`
  8                      8          common
  8 cm                   8          common
  7,5                    7.5        common
  7.5 cm                 7.5        common
  75 mm                  7.5        common
  8 cm de espesor        8          common
  5-8                    6.5 ± 1.5  common
  3 in                   7.62       common
  8-5                    ! falls
  121                    ! depth-absurd
`),
)('in centimetres %s is %s', (typed, meaning) => expectMeaning('centimetres', typed, meaning))
