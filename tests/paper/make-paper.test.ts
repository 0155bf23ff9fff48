import { expect, test } from 'vitest'
import { drawBed } from '../../src/drawing/bed.ts'
import { makePaper } from '../../src/paper/make-paper.ts'
import type { Paper } from '../../src/paper/paper.ts'
import { MARK, settable } from '../../src/paper/typeface.ts'
import { readPdf } from '../helpers/pdf.ts'

const paper = (instead: Partial<Paper> = {}): Paper => ({
  language: 'es',
  title: 'Precio 7',
  made: Temporal.Instant.from('2026-03-01T12:00:00Z'),
  size: 'LETTER',
  from: { name: 'Jardines Peña', lines: ['12 Elm Street'], logo: null },
  heading: 'Su precio, su día',
  about: ['Nguyễn Ánh', '¿Sí? — “así” …'],
  parts: [],
  foot: 'Jardines Peña',
  pageInWords: (page, pages) => `Página ${page} de ${pages}`,
  ...instead,
})

const drawing = drawBed(
  {
    width: 27,
    height: 12,
    path: 'M0 0H27V12H0Z',
    dimensions: [{ size: 'length', from: [0, 12], to: [27, 12], place: 'below' }],
  } as never,
  { hatch: 'pebbles', title: 'A bed', sizes: { length: '27 ft 3 in' }, id: 'bed-1', colour: '#7a4b2a' },
)

test('a paper can be read by programs: words, title, language and tags', async () => {
  const read = await readPdf(await makePaper(paper()))
  expect(read).toMatchObject({ title: 'Precio 7', language: 'es', isTagged: true })
  for (const words of ['Jardines Peña', 'Su precio, su día', 'Nguyễn Ánh', '¿Sí? — “así” …', 'Página 1 de 1'])
    expect(read.text).toContain(words)
})

test('what the typeface has not is marked, a mark for each character that is seen', () => {
  expect(settable('Ana 🌿')).toBe(`Ana ${MARK}`)
  expect(settable('👨‍👩‍👧 王小明')).toBe(`${MARK} ${MARK.repeat(3)}`)
  expect(settable('محمد')).toBe(MARK.repeat(4))
  // Decomposed, with a mark of direction and one that no text has.
  expect(settable('Pen\u0303a\u202e\u0000!')).toBe('Peña!')
  expect(settable('a\r\nb\tc')).toBe('a\nb c')
})

test('every line, bed and word of a long paper is there once, in order, and each page says which it is', async () => {
  const lines = Array.from({ length: 60 }, (_, at) => ({
    label: `Line ${at};`,
    note: `note ${at};`,
    amount: `$${at}.00`,
  }))
  const beds = Array.from({ length: 12 }, (_, at) => ({
    title: `Bed ${at};`,
    lines: [`words ${at};`],
    drawing,
  }))
  const text = Array.from({ length: 900 }, (_, at) => `w${at};`).join(' ')
  const read = await readPdf(
    await makePaper(
      paper({
        parts: [
          {
            kind: 'amounts',
            heading: 'Lines',
            lines,
            total: { label: 'Total', amount: '$1,770.00' },
            note: null,
          },
          { kind: 'beds', heading: 'Beds', beds },
          { kind: 'text', heading: 'Text', lines: [text] },
          { kind: 'facts', heading: 'Facts', facts: [{ what: 'Who?', said: 'We.', language: 'en' }] },
        ],
      }),
    ),
  )
  expect(read.text.match(/Line \d+;/g)).toEqual(lines.map(({ label }) => label))
  expect(read.text.match(/note \d+;/g)).toEqual(lines.map(({ note }) => note))
  expect(read.text.match(/Bed \d+;/g)).toEqual(beds.map(({ title }) => title))
  // The figures of a drawing are text, too.
  expect(read.text.match(/27 ft 3 in/g)).toHaveLength(beds.length)
  expect(read.text.match(/w\d+;/g)).toEqual(text.split(' '))
  expect(read.pages.length).toBeGreaterThan(4)
  for (const [at, page] of read.pages.entries()) {
    expect(page).toContain(`Página ${at + 1} de ${read.pages.length}`)
    // A row of amounts is whole on its page.
    const ofRow = (pattern: RegExp) => page.match(pattern)?.map(found => found.replace(/\D/g, '')) ?? []
    expect(ofRow(/note \d+;/g)).toEqual(ofRow(/Line \d+;/g))
    expect(ofRow(/\$\d+\.(?=00)/g)).toEqual(expect.arrayContaining(ofRow(/Line \d+;/g)))
  }
})

test('a row, a bed and a name longer than any page are written to their end', async () => {
  const long = Array.from({ length: 1500 }, (_, at) => `x${at};`).join(' ')
  const read = await readPdf(
    await makePaper(
      paper({
        about: ['n'.repeat(3000)],
        parts: [
          {
            kind: 'amounts',
            heading: 'Lines',
            lines: [{ label: long, note: null, amount: '$1.00' }],
            total: { label: 'Total', amount: '$1.00' },
            note: null,
          },
          { kind: 'beds', heading: 'Beds', beds: [{ title: 'Bed', lines: [long], drawing }] },
        ],
      }),
    ),
  )
  expect(read.text.match(/x\d+;/g)).toEqual([...long.split(' '), ...long.split(' ')])
  expect(read.text.match(/n/g)!.length).toBeGreaterThanOrEqual(3000)
})
