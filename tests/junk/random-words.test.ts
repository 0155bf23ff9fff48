import { expect, test } from 'vitest'
import { countRandomWords } from '../../src/junk/random-words.ts'
import { catalogue } from '../../src/language/catalogue.ts'

test('of all sentences that homeowners and helpers read, in either language, no word looks typed at random', () => {
  const sentences = Object.values(catalogue).flatMap(language => Object.values(language))
  expect(sentences.length).toBeGreaterThan(2000)
  const doubted = sentences.filter(sentence => countRandomWords(sentence).random > 0)
  expect(doubted).toEqual([])
})

test('of letters drawn by lot, a dozen words are known for it', () => {
  let seed = 7
  // A linear congruential generator: the same letters in every run.
  const draw = (most: number) => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648
    return Math.floor((seed / 2_147_483_648) * most)
  }
  const word = () => Array.from({ length: 4 + draw(7) }, () => String.fromCharCode(97 + draw(26))).join('')
  const texts = Array.from({ length: 300 }, () => Array.from({ length: 12 }, word).join(' '))
  const known = texts.filter(text => {
    const { words, random, letters } = countRandomWords(text)
    return (letters && random >= 2) || (random >= 3 && random / words >= 0.5)
  })
  expect(known.length).toBeGreaterThanOrEqual(295)
})

test('links, addresses and other alphabets are no words', () => {
  const text = 'https://photos.example/xkqjwv me@xkqjwv.example xkqjw.zxcvbn 请在下午四点 Ждём вас'
  expect(countRandomWords(text)).toEqual({ words: 0, random: 0, letters: false })
})
