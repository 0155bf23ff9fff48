import { describe, expect, it } from 'vitest'
import { boxes, expectMeaning, spellings } from './table.ts'

// NIST SP 811: a foot is 0.3048 m, an inch 2.54 cm, exactly. A pace is the business's own, here 2.5 ft or 0.762 m.
describe('a business in feet', () => {
  it.each(
    spellings(`
  3.048 m                10         common
  3,8 m                  3.8/0.3048
  304.8 cm               10         common
  304.8cm                10         common
  3048 mm                10         common
  3,048 mm               10
  3 m 4.8 cm             10
  6.096 meters           20         common
  6.096 metres           20         common
  1 m 20                 1.2/0.3048
  40 paces               100        common
  40 steps               100
  40 strides             100
  1 pace                 2.5
  12 pies                12         common
  1 pie                  1          common
  5 pies 6 pulgadas      5.5        common
  6 pulgadas             1/2        common
  12 pies lineales       12
  4 yardas               12         common
  40 pasos               100        common
  12 pies de largo       12         common
  5 pies de ancho        5          common
  8 pies de diámetro     8          common
  3.048 metros           10         common
  3.048 metros lineales  10
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
})

describe('a business in metres', () => {
  it.each(
    spellings(`
  ½m1                    0.51
  1/2 m 5                0.55
  1.5 m 5                1.55
  3                      3          common
  3.8                    3.8        common
  3,8                    3.8        common
  3 m                    3          common
  3m                     3          common
  3,8 m                  3.8        common
  380 cm                 3.8        common
  380cm                  3.8        common
  3800 mm                3.8        common
  3 meters               3          common
  3 metros               3          common
  3,8 metros             3.8        common
  3 mts                  3          common
  1 m 20                 1.2        common
  1m20                   1.2        common
  1 m 20 cm              1.2        common
  1m05                   1.05       common
  1m5                    1.05 | 1.5
  1 m 5                  1.05 | 1.5
  2 metros lineales      2          common
  tres metros y medio    3.5
  uno y medio            1.5
  1,200                  1200 | 1.2
  1.200                  1.2 | 1200
  1 200                  1200       common
  12 ft                  3.6576     common
  12' 6"                 3.81       common
  24 in                  0.6096     common
  20 paces               15.24
  4 yd                   3.6576     common
`),
  )('in metres %s is %s', (typed, meaning) => expectMeaning('metres', typed, meaning))
})

it.each([
  ['metres', '1,200', '1.2 m'],
  ['metres', '1,250', '1.25 m'],
  ['metres', '1,234', '1.2340 m'],
  ['square metres', '1,200', '1.2 m²'],
  ['feet', '12-06', '6 ft - 12 ft'],
] as const)('in %s the other reading of %s is written %s', (box, typed, other) => {
  const { instead = [] } = boxes[box](typed)
  expect(instead.join()).toBe(other)
})
