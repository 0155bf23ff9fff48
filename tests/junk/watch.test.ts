import { expect, test } from 'vitest'
import { Copies } from '../../src/junk/copies.ts'
import { Counted } from '../../src/junk/counted.ts'
import { secondsHad, signTime } from '../../src/junk/form-time.ts'
import { sketchOf } from '../../src/junk/likeness.ts'
import { type Arriving, JunkWatch } from '../../src/junk/watch.ts'

const START = Temporal.Instant.from('2026-03-02T15:00:00Z')
const NOTE = 'We have two beds by the porch and one along the fence, please come after four'
let nth = 0

function arriving(instead: Partial<Arriving> = {}): Arriving {
  nth += 1
  const words = { name: `Pat ${nth}`, street: `${nth} Elm`, preferredTimes: '', gate: '', dog: '', note: '' }
  return {
    submission: `s${nth}`,
    address: '192.0.2.1',
    words,
    phone: '',
    email: '',
    hiddenBox: '',
    seconds: 30,
    ...instead,
  }
}

function watching() {
  const clock = { at: START }
  return { clock, watch: new JunkWatch(() => clock.at) }
}

const saying = (note: string): Partial<Arriving> => ({ words: { ...arriving().words, note } })

test('near copies from other addresses are held from the third on, whatever was changed here and there', async () => {
  const { watch } = watching()
  const texts = [NOTE, `${NOTE}!!`, NOTE.toUpperCase(), `Hello. ${NOTE}`, NOTE.replace('four', 'five')]
  const weighed = texts.map((text, n) => watch.weigh(arriving({ ...saying(text), address: `192.0.${n}.1` })))
  const held = (await Promise.all(weighed)).map(one => one.held)
  expect(held).toEqual([false, false, true, true, true])
})

test('short notes that many write, and longer ones of other words, are no copies', async () => {
  const { watch, clock } = watching()
  const later = () => {
    // Slowly, so that all together aren't many.
    clock.at = clock.at.add({ minutes: 3 })
  }
  for (let n = 0; n < 20; n++) {
    later()
    const address = `192.0.${n}.1`
    expect((await watch.weigh(arriving({ ...saying('Please call me'), address }))).points).toBe(0)
  }
  // Four to seven words, the same from ten others, aren’t chance any more.
  const sent = Array.from({ length: 12 }, (_, n) => {
    later()
    return watch.weigh(arriving({ ...saying('Please call me after four'), address: `192.1.${n}.1` }))
  })
  const same = await Promise.all(sent)
  expect(same.map(({ held }) => held)).toEqual([...Array(10).fill(false), true, true])
  const other = 'The beds behind the garage have weeds as tall as my knees, bring a big truck'
  const { watch: another } = watching()
  await another.weigh(arriving(saying(NOTE)))
  expect((await another.weigh(arriving({ ...saying(other), address: '192.0.99.1' }))).points).toBe(0)
})

test('a text of a day ago is forgotten', async () => {
  const { watch, clock } = watching()
  for (let n = 0; n < 4; n++) await watch.weigh(arriving({ ...saying(NOTE), address: `192.0.${n}.1` }))
  clock.at = START.add({ hours: 25 })
  expect((await watch.weigh(arriving({ ...saying(NOTE), address: '192.0.9.1' }))).held).toBe(false)
})

test('pressed again, the same submission gets the same verdict and counts once', async () => {
  const { watch } = watching()
  const one = arriving()
  const first = await watch.weigh(one)
  for (let n = 0; n < 40; n++) expect(await watch.weigh(one)).toBe(first)
  expect((await watch.weigh(arriving())).points).toBe(0)
})

test('ten neighbors behind one address are let in, and who sends forty in an hour isn’t', async () => {
  const { watch } = watching()
  const sent = Array.from({ length: 40 }, () => watch.weigh(arriving()))
  const held = (await Promise.all(sent)).map(one => one.held)
  expect(held.slice(0, 10)).toEqual(Array(10).fill(false))
  expect(held.at(-1)).toBe(true)
})

test('what is held takes nothing of what all together may send; beyond that the rest is held', async () => {
  const { watch } = watching()
  for (let n = 0; n < 200; n++) await watch.weigh(arriving({ address: `198.18.${n}.1`, hiddenBox: 'x' }))
  expect((await watch.weigh(arriving({ address: '203.0.113.1' }))).points).toBe(0)
  // One was let in above: the sixtieth of these is held already, and isn’t counted.
  for (let n = 0; n < 60; n++) await watch.weigh(arriving({ address: `198.19.${n}.1` }))
  const { held, reasons } = await watch.weigh(arriving({ address: '203.0.113.2' }))
  expect(held).toBe(true)
  expect(reasons[0]!.words).toBe('60 requests from everywhere within ten minutes')
})

test('neighbors of IPv6 count together by their first 48 bits, of IPv4 by 24', async () => {
  for (const addressOf of [(n: number) => `2001:db8:1:${n.toString(16)}::1`, (n: number) => `192.0.2.${n}`]) {
    const { watch, clock } = watching()
    const sent = Array.from({ length: 31 }, (_, n) => {
      // Within the hour, and slowly enough that all together aren't too many.
      clock.at = START.add({ seconds: n * 115 })
      return watch.weigh(arriving({ address: addressOf(n) }))
    })
    const weighed = await Promise.all(sent)
    const words = (nth: number) => weighed[nth]!.reasons.map(reason => reason.words).join('\n')
    expect(words(10)).not.toContain('part of the internet')
    expect(words(30)).toContain('30 requests within the hour from the same part of the internet')
  }
})

test('counts fade within the time after their window', () => {
  const counted = new Counted(1000, 2)
  for (let n = 0; n < 10; n++) counted.add('a', 0)
  expect([500, 1000, 1500, 1999, 2000].map(at => counted.of('a', at))).toEqual([10, 10, 5, 0, 0])
  counted.add('b', 0)
  counted.add('c', 0)
  expect(counted.of('a', 0)).toBe(0)
})

test('many copies take the room of one, and of more texts than are known the oldest goes', () => {
  const copies = new Copies()
  const { hashes: sketch } = sketchOf(NOTE)!
  for (let n = 0; n < 1000; n++) copies.note(sketch, `n${n}`, n)
  expect(copies.size).toBe(1)
  for (let n = 0; n < 5000; n++) copies.note([`hash ${n}`], 'n', 1000 + n)
  expect(copies.size).toBe(4000)
  expect(copies.note(sketch, 'n', 7000)).toEqual({ here: 0, elsewhere: 0 })
})

test('a form’s time is known by its signature, and of that form alone', async () => {
  const [key, other] = ['a key of 32 characters or more, for tests', 'another key of 32 characters or more']
  const signed = signTime(key, 'form', START)
  const later = START.add({ seconds: 12, milliseconds: 400 })
  expect(secondsHad(key, 'form', signed, later)).toBe(12)
  expect(secondsHad(key, 'form', signed, START.subtract({ hours: 1 }))).toBe(0)
  const forged = [undefined, '', 'x', ['a'], `${signed}x`, signed.replace(/^\w/, 'a'), signed.split('.')[1]]
  for (const carried of forged) expect(secondsHad(key, 'form', carried, later)).toBeNull()
  expect(secondsHad(key, 'another', signed, later)).toBeNull()
  expect(secondsHad(other, 'form', signed, later)).toBeNull()
})
