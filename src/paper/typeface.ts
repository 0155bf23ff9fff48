import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { create, type Font } from 'fontkit'

const require = createRequire(import.meta.url)

/** The two weights that papers are set in, as files to embed. */
export const PLAIN = readFileSync(
  require.resolve('@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf'),
)
export const BOLD = readFileSync(
  require.resolve('@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf'),
)

/** Stands for every character that the typeface hasn't. */
export const MARK = '□'

const known = create(PLAIN) as Font
const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' })
// Of these the typeface has every one; most texts are made of nothing else.
const COMMON = /^[\n\x20-\x7e\u00a0-\u00ac\u00ae-\u00ff–—‘’“”…]*$/

/** The same text with a mark for each character that can't be set, and without what has no form of its own but line breaks. */
export function settable(text: string): string {
  const whole = text.normalize('NFC').replace(/\r\n?/g, '\n').replace(/\t/g, ' ')
  if (COMMON.test(whole)) return whole
  return Array.from(graphemes.segment(whole), ({ segment }) => {
    if (segment === '\n') return segment
    const seen = segment.replace(/[\p{Cc}\p{Cf}\p{VS}]/gu, '')
    const isKnown = [...seen].every(one => known.hasGlyphForCodePoint(one.codePointAt(0)!))
    return isKnown ? seen : MARK
  }).join('')
}
