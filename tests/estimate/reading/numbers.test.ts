import { describe, expect, it } from 'vitest'
import { boxes, expectMeaning, spellings } from './table.ts'

describe('figures', () => {
  it.each(
    spellings(`
  12.5                   12.5       common
  12,5                   12.5
  12.50                  12.5       common
  12.25                  12.25      common
  .5                     1/2        common
  ,5                     1/2
  0.75                   3/4        common
  12.                    12
  1,200                  1200       common
  1,200.5                1200.5     common
  1.200,5                1200.5
  1 200                  1200
  12 000 ft              12000
  1,250 ft               1250       common
  0,250                  1/4
  007                    7
  5.6                    5.6 | 5.5
  5.6 ft                 5.6 | 5.5
  5.1                    5.1 | 61/12
  5.10                   5.1 | 35/6
  5.11                   5.11 | 71/12
  5.5                    5.5        common
  5.25                   5.25       common
  5.6 m                  5.6/0.3048
  12.8                   12.8 | 38/3
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
})

describe('fractions', () => {
  it.each(
    spellings(`
  12 1/2                 12.5       common
  12-1/2                 12.5       common
  12½                    12.5       common
  12 ½                   12.5       common
  12 1/2 ft              12.5       common
  12 1⁄2                 12.5
  12 and 1/2             12.5       common
  12 & 1/2               12.5
  12 y 1/2               12.5
  ½                      1/2        common
  1/2                    1/2        common
  1/2 ft                 1/2        common
  3/4 ft                 3/4        common
  ¾                      3/4        common
  2 1/3                  7/3
  2⅔ ft                  8/3
  6 3/8"                 17/32      common
  6 5/16 in              101/192
  5/64 ft                5/64
  1/5 yd                 0.6
  ⅘                      0.8
  2 4/5                  2.8
  12-5/6                 77/6
  4/5                    ! length-unreadable
  9/10                   ! length-unreadable
  20/5                   ! length-unreadable
  20/30                  ! length-unreadable
  12/20                  ! length-unreadable
  5/20                   ! length-unreadable
  20/30 ft               ! length-unreadable
  20/32                  ! length-unreadable
  12 20/30               ! length-unreadable
  5/4                    ! length-unreadable
  12 5/4                 ! length-unreadable
  2/2                    ! length-unreadable
  1/0                    ! length-unreadable
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))
})

describe('words', () => {
  it.each(
    spellings(`
  twelve                 12
  Twelve Feet            12
  twenty                 20
  twenty-five            25
  twenty five ft         25
  twelve and a half      12.5
  twelve and a half feet  12.5
  12 and a half          12.5       common
  twelve feet six inches  12.5
  twelve feet and a half  12.5
  six inches             1/2
  a foot                 1
  a foot and a half      1.5
  half a foot            1/2        common
  half a yard            1.5        common
  a yard                 3
  three quarters of a foot  3/4
  a quarter of a yard    3/4
  forty paces            100
  twenty by five         20 x 5
  twenty to twenty-five  22.5 ± 2.5
  about twenty           ~20
  doce                   12
  doce pies              12
  doce pies y medio      12.5
  doce y medio           12.5
  veinticinco            25
  veintidós pies         22
  treinta y cinco        35
  treinta y cinco pies   35
  medio pie              1/2
  un pie                 1
  una yarda y media      4.5
  cuarenta pasos         100
  veinte por cinco       20 x 5
  unos veinte            ~20
  entre veinte y treinta  25 ± 5
  one hundred            ! length-unreadable
  plenty                 ! length-unreadable
  twelve six             ! length-unreadable
`),
  )('in feet %s is %s', (typed, meaning) => expectMeaning('feet', typed, meaning))

  const en = {
    small:
      'one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen',
    tens: 'twenty thirty forty fifty sixty seventy eighty ninety',
  }
  const es = {
    small:
      'uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis diecisiete dieciocho diecinueve veinte veintiuno veintidós veintitrés veinticuatro veinticinco veintiséis veintisiete veintiocho veintinueve',
    tens: 'treinta cuarenta cincuenta sesenta setenta ochenta noventa',
  }

  /** Every number from 1 to 99 as it is written, in its order. */
  function spelled({ small, tens }: typeof en, joint: string): string[] {
    const alone = small.split(' ')
    const many = tens
      .split(' ')
      .flatMap(ten => [ten, ...alone.slice(0, 9).map(one => `${ten}${joint}${one}`)])
    return [...alone, ...many]
  }

  it.each([
    ['en', spelled(en, '-')],
    ['en, in two words', spelled(en, ' ')],
    ['es', spelled(es, ' y ')],
  ])('every number to ninety-nine, %s', (_language, words) => {
    expect(words).toHaveLength(99)
    for (const [index, word] of words.entries()) {
      const reading = boxes.feet(`${word} ft`)
      expect([word, reading.ok && reading.value.toFixed()]).toEqual([word, String(index + 1)])
    }
  })
})
