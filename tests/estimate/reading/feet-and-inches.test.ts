import { it } from 'vitest'
import { expectMeaning, spellings } from './table.ts'

// Twelve inches to the foot: 12 ft 6 in are 12.5 ft, 12 ft 7 in are 151/12 ft.
it.each(
  spellings(`
  12                     12         common
  12 ft                  12         common
  12ft                   12         common
  12 ft.                 12         common
  12 FT                  12         common
  12 feet                12         common
  12 foot                12         common
  12'                    12         common
  12’                    12         common
  12′                    12         common
  12\`                   12
  6 in                   1/2        common
  6in                    1/2        common
  6 in.                  1/2        common
  6"                     1/2        common
  6”                     1/2        common
  6″                     1/2        common
  6''                    1/2        common
  6 inches               1/2        common
  1 inch                 1/12       common
  150"                   12.5       common
  18 ins                 1.5
  12'6"                  12.5       common
  12' 6"                 12.5       common
  12’ 6”                 12.5       common
  12′ 6″                 12.5       common
  12'6                   12.5       common
  12' 6                  12.5       common
  12'-6"                 12.5       common
  12' - 6"               12.5       common
  12' 7"                 151/12     common
  12ft6in                12.5       common
  12ft 6in               12.5       common
  12 ft 6 in             12.5       common
  12 ft. 6 in.           12.5       common
  12 ft 6                12.5       common
  12 foot 6              12.5       common
  12 feet 6 inches       12.5       common
  12 feet, 6 inches      12.5       common
  12 feet and 6 inches   12.5       common
  12 ft & 6 in           12.5
  12 ft 6"               12.5       common
  12ft2in                73/6
  12'2                   73/6       common
  12' 11"                155/12     common
  12' 0"                 12         common
  0' 6"                  1/2
  12' 6 1/2"             301/24     common
  12' 6½"                301/24     common
  12' 6-1/2"             301/24     common
  12'-6 1/2"             301/24     common
  12' 6.5"               301/24
  12' 1/2"               289/24     common
  12' 1/2                289/24 | 12.5
  12'1/2                 289/24 | 12.5
  12 ft 3/4              193/16 | 12.75
  20'.5                  481/24 | 20.5
  20' 0.5                481/24 | 20.5
  20'.6                  20.05 | 20.6
  20' .5"                481/24
  12 ft 1/2 in           289/24     common
  12' 6" and 1/2         301/24
  12' 6" and a half      301/24
  12 ft 6 1/2 in         301/24     common
  12 ft 6 and a half     301/24
  12 ft and a half       12.5
  12 and a half feet     12.5       common
  12 ft and 1/2          12.5 | 289/24
  12' and 1/2            12.5 | 289/24
  3 feet 3 3/4 inches    53/16      common
  5' 3 3/8"              169/32
  12' 18"                13.5
  4 yd                   12         common
  4 yds                  12         common
  4 yards                12         common
  1 yard                 3          common
  4 yards 2 ft           14
  4 yd 2                 14
  4 yd 1 ft 6 in         13.5
  2 1/2 yd               7.5        common
`),
)('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))

// What is long, wide or across, and feet that are called linear.
it.each(
  spellings(`
  20 ft long             20         common
  20 long                20         common
  5 ft wide              5          common
  5' wide                5          common
  8 feet across          8          common
  2 ft circle            2          common
  12 ft diameter         12         common
  12' diameter           12         common
  12 pies diámetro       12
  6 in across            1/2        common
  20 ft in length        20         common
  20 feet in width       20
  8' in diameter         8          common
  6 inches wide          1/2        common
  12' 6" long            12.5       common
  5 ft deep              5          common
  12 linear ft           12         common
  12 linear feet         12         common
  12 lineal feet         12         common
  12 lin. ft             12         common
  12 lin ft              12         common
  12 lf                  12         common
  12 running feet        12
  12 linear feet long    12
`),
)('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
