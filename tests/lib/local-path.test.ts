import fc from 'fast-check'
import { expect, test } from 'vitest'
import { localPath } from '../../src/lib/local-path.ts'

const FALLBACK = '/queue'
const OURS = 'https://beds.example'
/** Pages from which a browser may be sent on; one of them deep, as `back` might be relative. */
const FROM = [`${OURS}/sign-in`, `${OURS}/queue/26-0001/quote?back=x`]

const originsOf = (path: string) => FROM.map(page => new URL(path, page).origin)

test.each([
  '/.//elsewhere.example',
  '/..//elsewhere.example',
  '/%2e//elsewhere.example',
  '/%2E%2e//elsewhere.example',
  '/a/..//elsewhere.example',
  '/./\\elsewhere.example',
  '/.\t//elsewhere.example',
  '//elsewhere.example',
  '/\\elsewhere.example',
  '/\n/elsewhere.example',
  ' //elsewhere.example',
  'https://elsewhere.example/',
  'javascript:alert(1)',
  '',
])('goes on to our own page, not to %j', back => {
  expect(localPath(back, FALLBACK)).toBe(FALLBACK)
})

test.each([
  ['/settings?from=mail', '/settings?from=mail'],
  ['/', '/'],
  ['/days?from=2026-03-02#room', '/days?from=2026-03-02'],
  ['/queue/../rates', '/rates'],
  ['/%09/elsewhere.example', '/%09/elsewhere.example'],
  ['/queue?q=//elsewhere.example', '/queue?q=//elsewhere.example'],
])('keeps a page of ours: %j', (back, path) => {
  expect(localPath(back, FALLBACK)).toBe(path)
})

const piece = fc.constantFrom(
  ...['/', '//', '\\', '.', '..', '/.', '/..', '%2e', '%2E', '%2f', '%5c', '%09', '%00', '%', ';', '?', '#'],
  ...['\t', '\n', '\r', ' ', '\0', '\u0001', '\u007f', '\u00a0', '\u2028', '\ufeff', '\u3002', '\uff0f'],
  ...['@', ':', ':443', 'https:', 'http:', 'javascript:', 'elsewhere.example', 'queue', '[::1]', 'é', '🌿'],
)
const spelling = fc.oneof(
  fc.array(piece, { maxLength: 12 }).map(pieces => pieces.join('')),
  fc.array(piece, { maxLength: 12 }).map(pieces => `/${pieces.join('')}`),
  fc.string({ unit: 'binary' }),
)

test('however an address is spelled, what is gone on to is of our own site, and is given again', () => {
  const seen = { kept: 0, refused: 0 }
  fc.assert(
    fc.property(spelling, back => {
      const path = localPath(back, FALLBACK)
      seen[path === FALLBACK ? 'refused' : 'kept'] += 1
      expect(originsOf(path)).toEqual([OURS, OURS])
      expect(localPath(path, '/fallen-back')).toBe(path)
    }),
    { numRuns: 5_000 },
  )
  expect(seen.kept).toBeGreaterThan(100)
  expect(seen.refused).toBeGreaterThan(100)
})

test('what grows too long as it is read is refused like what was too long from the first', () => {
  expect(localPath(`/${'é'.repeat(1000)}`, FALLBACK)).toBe(FALLBACK)
  expect(localPath(`/${'a'.repeat(2000)}`, FALLBACK)).toBe(FALLBACK)
  expect(localPath(`/${'a'.repeat(1999)}`, FALLBACK)).toBe(`/${'a'.repeat(1999)}`)
})
