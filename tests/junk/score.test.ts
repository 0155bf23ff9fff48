import { describe, expect, test } from 'vitest'
import { type Coming, HOLD_FROM, score, type Words } from '../../src/junk/score.ts'

const NOTHING: Words = {
  name: 'Carol Reyes',
  street: '12 Fern Lane, Austin',
  preferredTimes: '',
  gate: '',
  dog: '',
  note: '',
}
const NONE = { here: 0, elsewhere: 0 }
const QUIET: Coming = {
  words: NOTHING,
  hiddenBox: '',
  seconds: 40,
  before: { address: 0, network: 0, minutes: 0, day: 0 },
  text: NONE,
  shortText: NONE,
  contact: NONE,
  site: NONE,
}

const withWords = (words: Partial<Words>): Coming => ({ ...QUIET, words: { ...NOTHING, ...words } })
const points = (coming: Coming) => score(coming).points
const isHeld = (coming: Coming) => points(coming) >= HOLD_FROM

describe('what people write is let in, and most of it without a point', () => {
  const BEDS = Array.from(
    { length: 30 },
    (_, n) => `bed ${n + 1}: ${n + 4} ft x ${n + 2} ft, shredded hardwood`,
  )
  test.each([
    ['nothing at all', ''],
    [
      'Spanish',
      'Necesito que quiten el mantillo viejo y pongan nuevo en las jardineras de adelante. El perro es manso, pero ladra. Muchas gracias.',
    ],
    [
      'Spanish of hard words',
      'Izquierda del parque, porque el alquiler excluye el jardín; averígüenlo, por favor. Xochitl Tlaquepaque',
    ],
    ['a long list of beds', BEDS.join('\n')],
    ['all caps', 'PLEASE CALL BEFORE YOU COME. THE GATE STICKS AND THE DOG BITES STRANGERS'],
    ['emoji', 'So excited!!! 🌷🌷🌷 our beds look sad 😢 please help 🙏🏽'],
    [
      'plants',
      'Two boxwood, foxglove, phlox, chrysanthemums, and crape myrtle; keep mulch off the hydrangea crowns',
    ],
    ['long consonants', 'The lengths of the flowerbeds: northstretch, lightweight, backstreet'],
    ['abbreviations', 'pkwy & hwy 71, 3 cu yd, blk mulch w/ weed cntrl, pls txt thx'],
    ['Polish and German', 'Grzegorz Brzęczyszczykiewicz, Schmidtstraße, Wojciechowski'],
    ['Vietnamese', 'Nhờ anh gọi điện trước khi đến. Cảm ơn nhiều, Nguyễn Thị Ánh'],
    ['Chinese', '请在下午四点以后打电话，谢谢。门口有狗。'],
    ['an email in the note', 'You can reach my wife at pat.jones@example.com or leave word with the office'],
    ['figures alone', '12x4 8x3 22x6 40x2.5 3/4" minus'],
  ])('%s', (_what, note) => {
    expect(score(withWords({ note }))).toEqual({ points: 0, reasons: [] })
  })

  test.each([
    ['a link to a garden photo', 'Here is a photo: https://photos.example.com/a/Xk3jQz9'],
    ['links to two albums', 'Front https://photos.example/aXq and back https://photos.example/bZk'],
    ['the site of the association', 'Rules are at oakhillhoa.org'],
  ])('%s counts a little, and holds nothing', (_what, note) => {
    expect(points(withWords({ note }))).toBeGreaterThan(0)
    expect(isHeld(withWords({ note }))).toBe(false)
  })

  test('a link to where others keep their photos too holds nothing', () => {
    const note = 'Photos: https://photos.example.com/a/1'
    expect(isHeld({ ...withWords({ note }), site: { here: 3, elsewhere: 20 } })).toBe(false)
  })

  test('the same few words from some others hold nothing', () => {
    expect(isHeld({ ...QUIET, shortText: { here: 5, elsewhere: 9 } })).toBe(false)
  })

  test('loose words alone, or while many come, hold nothing; nor does a link to a photo then', () => {
    const many = { ...QUIET.before, minutes: 59 }
    const loose = withWords({
      note: 'Hydrangea, azalea, rhododendron, lavender, rosemary, sage, thyme, basil',
    })
    expect(points(loose)).toBe(4)
    expect(isHeld(loose)).toBe(false)
    expect(isHeld({ ...withWords({ note: 'Photo: https://photos.example.com/a' }), before: many })).toBe(
      false,
    )
    expect(isHeld({ ...QUIET, before: many })).toBe(false)
  })

  test('a name that few can say counts two at most', () => {
    for (const name of ['Ng Hrbtfk', 'Mstislav Zwrszcz', 'Qxdrv'])
      expect(points(withWords({ name }))).toBeLessThanOrEqual(2)
  })

  test('ten neighbors behind one address, each with beds of their own, are let in', () => {
    for (let before = 0; before < 10; before++) {
      const neighbor = { ...QUIET, before: { ...QUIET.before, address: before, network: before } }
      expect(isHeld(neighbor)).toBe(false)
    }
  })

  test('who sends twice, from home and from the phone, or for three yards with the same note, is let in', () => {
    expect(isHeld({ ...QUIET, text: { here: 0, elsewhere: 1 }, contact: { here: 0, elsewhere: 1 } })).toBe(
      false,
    )
    expect(isHeld({ ...QUIET, text: { here: 2, elsewhere: 0 }, contact: { here: 2, elsewhere: 0 } })).toBe(
      false,
    )
  })
})

describe('the form’s own time never decides alone', () => {
  test.each([
    [null, 'It doesn’t say when the form was opened, as our form does'],
    [0, 'Name and address were typed in less than a second'],
    [1, 'Name and address were typed in 1 second'],
    [2, 'Name and address were typed in 2 seconds'],
    [20 * 86_400, 'The form was opened 20 days before'],
  ])('%s seconds', (seconds, words) => {
    const { reasons, points } = score({ ...QUIET, seconds })
    expect(reasons.map(reason => reason.words)).toEqual([words])
    expect(points).toBeLessThan(HOLD_FROM)
  })

  test.each([3, 60, 14 * 86_400])('%s seconds are as they should be', seconds => {
    expect(points({ ...QUIET, seconds })).toBe(0)
  })
})

describe('what programs send is held', () => {
  test.each([
    [
      'words typed at random with a link',
      { note: 'xkqjw vbzrtp qwrtpl zxcvbn hjklqw https://cheap.example/x' },
    ],
    [
      'mixed capitals at random with a link',
      { name: 'gHtRwQaLp', street: 'xZkRtQwPl', note: 'kLmQrTzXw www.shop.example' },
    ],
    ['links as for a forum', { note: '[url=https://a.example]best[/url] https://b.example' }],
    ['links as for a web page', { note: '<a href="https://a.example">pills</a>' }],
    [
      'a link for a name and one in the note',
      { name: 'Win at casino.example.com', note: 'https://a.example' },
    ],
    [
      'four links, one of them for a street',
      { street: 'https://a.example', note: 'b.example.com c.example.com d.example.com' },
    ],
  ])('%s', (_what, words) => {
    expect(isHeld(withWords(words))).toBe(true)
  })

  test.each<[string, Partial<Coming>]>([
    ['the box that people don’t see', { hiddenBox: 'x' }],
    ['the same text from two others', { text: { here: 0, elsewhere: 2 } }],
    ['the same few words from ten others', { shortText: { here: 0, elsewhere: 10 } }],
    [
      'two links, to a site that others linked to',
      { ...withWords({ note: 'a.example.com b.example.com' }), site: { here: 0, elsewhere: 4 } },
    ],
    ['the same text ten times from one address', { text: { here: 10, elsewhere: 0 } }],
    ['the same name and street from four others', { contact: { here: 0, elsewhere: 4 } }],
    ['thirty in an hour from one address', { before: { ...QUIET.before, address: 30 } }],
    ['more from everywhere than people send', { before: { ...QUIET.before, minutes: 60, day: 60 } }],
    ['more in a day than people send', { before: { ...QUIET.before, day: 300 } }],
    [
      'three links within a second',
      { ...withWords({ note: 'a.example.com b.example.com c.example.com' }), seconds: 0 },
    ],
    [
      'the same name and street from three others, without a time',
      { contact: { here: 0, elsewhere: 3 }, seconds: null },
    ],
  ])('%s', (_what, coming) => {
    expect(isHeld({ ...QUIET, ...coming })).toBe(true)
  })

  test('blanks in the box that people don’t see are nothing', () => {
    expect(points({ ...QUIET, hiddenBox: '  ' })).toBe(0)
  })

  test('the weightiest reason comes first, and the points are their sum', () => {
    const { reasons, points } = score({
      ...withWords({ note: 'a.example.com' }),
      hiddenBox: 'x',
      seconds: null,
    })
    expect(reasons).toEqual([
      { points: 10, words: 'A box that people don’t see was filled in' },
      { points: 4, words: 'It doesn’t say when the form was opened, as our form does' },
      { points: 2, words: '1 link in the note' },
    ])
    expect(points).toBe(16)
  })
})
