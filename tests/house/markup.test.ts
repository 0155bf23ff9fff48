import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeEach, expect, test } from 'vitest'
import { kindOf, skeletonOf } from '../helpers/kind-of-page.ts'
import { markupFaults, seenPages } from '../helpers/markup.ts'

const SOUND = `<!DOCTYPE html>
<html lang="en">
<head><title>Queue</title><meta name="viewport" content="width=device-width"></head>
<body>
<main>
<h1>Queue</h1>
<h2>New</h2>
<p>Carol, <a class="number" href="tel:5125550177">(512) 555-0177</a></p>
<form method="post" action="/queue">
<label for="note-1">Note</label> <input id="note-1" name="note.1" type="text" value="Two beds">
<label for="note-2">Note</label> <input id="note-2" name="note.2" type="text" value="">
<button type="submit">Save</button>
</form>
<ul><li>26-0001</li><li>26-0002</li></ul>
</main>
</body>
</html>`

let claims: string
beforeEach(() => {
  claims = mkdtempSync(join(tmpdir(), 'bedwright-claims-'))
  return () => rmSync(claims, { recursive: true })
})

/** What a test that saw these pages, in the run of the others, ends with. */
async function end(...pages: string[]): Promise<void> {
  const seen = seenPages(claims)
  for (const page of pages) seen.keep(page, 'GET /queue')
  await seen.requireSound()
}

/** Faults that look like the sound page as much as they can. */
const PLANTED: [what: string, part: string, instead: string][] = [
  ['an element that is not closed', '</li><li>26-0002', '<li>26-0002'],
  ['elements closed in the wrong order', 'Save</button>\n</form>', 'Save</form>\n</button>'],
  ['an element where it may not stand', '<p>Carol', '<p><div>Dog</div>Carol'],
  ['an element that is none', '<li>26-0001</li>', '<li><lineitem>26-0001</lineitem></li>'],
  ['a child that must come first', '<ul><li>26-0001</li>', '<ul><p>New</p><li>26-0001</li>'],
  ['an id that is there twice', 'id="note-2"', 'id="note-1"'],
  ['a name that is there twice', 'name="note.2"', 'name="note.1"'],
  ['a label of what is no field', '<h2>New</h2>', '<h2 id="new">New</h2><label for="new">New</label>'],
  ['an attribute that is there twice', 'value=""', 'value="" value=""'],
  ['a value that is not allowed', 'type="submit"', 'type="send"'],
  ['a quote that is left out', 'method="post"', 'method=post'],
  ['an attribute in capitals', 'method="post"', 'METHOD="post"'],
  ['a style inline', '<p>', '<p style="color: red">'],
  ['a button that does not say what it does', '<button type="submit">', '<button>'],
  ['an image without words', '<p>Carol', '<p><img src="/bed.png">Carol'],
  ['an empty heading', '<h2>New</h2>', '<h2></h2>'],
  ['a heading inside a link', '<p>Carol', '<p><a href="/"><a href="/">Dog</a></a>Carol'],
  ['an ampersand as it stands', 'Carol, ', 'Carol & Co, '],
  ['a < as it stands', '(512) 555-0177</a>', '(512) 555-0177</a> < 2 beds'],
  ['a < before a figure', 'Carol, ', 'Carol <3 beds, '],
  ['an entity that is none', 'Carol, ', 'Carol &sun; Co, '],
  ['a telephone number that may be broken', 'Carol, ', '<a href="tel:5125550188">(512) 555-0188</a>, '],
  ['a title without words', '<title>Queue</title>', '<title></title>'],
  ['a title that is too long', '<title>Queue', `<title>${'Queue of beds '.repeat(8)}`],
  ['blanks at the end of a line', '<h1>Queue</h1>', '<h1>Queue</h1>  '],
  ['a doctype of old', '<!DOCTYPE html>', '<!DOCTYPE HTML PUBLIC "-//W3C//DTD HTML 4.01//EN">'],
  ['no language', ' lang="en"', ''],
]

test.each(PLANTED)('%s is found after a sound page of nearly the same kind', async (_what, part, instead) => {
  const unsound = SOUND.replace(part, instead)
  expect(unsound).not.toBe(SOUND)
  expect(await markupFaults(SOUND)).toEqual([])
  await end(SOUND)
  await expect(end(SOUND, unsound)).rejects.toThrow('The page of GET /queue is no sound HTML:\n')
})

test('a fault is found by every test that sees it', async () => {
  const unsound = SOUND.replace('</li><li>', '<li>')
  await expect(end(unsound)).rejects.toThrow('no sound HTML')
  await expect(end(unsound)).rejects.toThrow('no sound HTML')
})

test('other texts, what was typed, other figures and a longer list make no other kind', () => {
  const other = SOUND.replace('Carol', 'Dora')
    .replace('Two beds', 'Three')
    .replaceAll('26-000', '27-010')
    .replace('<ul>', '<ul><li>26-0003</li>')
  expect(kindOf(skeletonOf(other))).toBe(kindOf(skeletonOf(SOUND)))
})

test.each([
  ['one row where there were several', '<li>26-0001</li>', ''],
  ['no row', '<ul><li>26-0001</li><li>26-0002</li></ul>', ''],
  ['a fault beside a field', '</form>', '<p id="note-2-error">Too long</p></form>'],
  ['a field that was left empty', 'value="Two beds"', 'value=""'],
  ['another language', 'lang="en"', 'lang="es"'],
])('%s makes another kind', (_what, part, instead) => {
  expect(kindOf(skeletonOf(SOUND.replace(part, instead)))).not.toBe(kindOf(skeletonOf(SOUND)))
})

/** Sound pages of which each holds a part, and a page of these parts that is not sound. */
const PUT_TOGETHER: [what: string, sound: string[], unsound: string][] = [
  [
    'two landmarks of one name',
    [SOUND.replace('<h1>', '<nav>New</nav><h1>'), SOUND.replace('</main>', '</main><nav>New</nav>')],
    SOUND.replace('<h1>', '<nav>New</nav><h1>').replace('</main>', '</main><nav>New</nav>'),
  ],
  [
    'a form that nothing sends',
    [
      SOUND,
      SOUND.replace('<button type="submit">Save</button>\n', '<button type="submit">Save</button><br>'),
    ],
    SOUND.replace('<button type="submit">Save</button>\n', ''),
  ],
  [
    'a link that is hidden from readers alone',
    [
      SOUND.replace('<h2>', '<p aria-hidden="true">New</p><h2>'),
      SOUND.replace('<h2>', '<p><a href="/">New</a></p><h2>'),
    ],
    SOUND.replace('<h2>', '<p aria-hidden="true"><a href="/">New</a></p><h2>'),
  ],
]

test.each(PUT_TOGETHER)(
  '%s is found where each part was seen on a sound page',
  async (_what, sound, unsound) => {
    for (const page of sound) expect(await markupFaults(page)).toEqual([])
    await end(...sound)
    await expect(end(unsound)).rejects.toThrow('no sound HTML')
  },
)

test('a page of parts that were seen is not checked again', async () => {
  const [more, less] = ['<p>More</p>', '<p class="less">Less</p>']
  await end(SOUND, SOUND.replace('<ul>', `${more}<ul>`), SOUND.replace('<ul>', `${less}<ul>`))
  await end(SOUND.replace('<ul>', `${more}${more}<ul>`), SOUND.replace('<ul>', `${more}${less}<ul>`))
  const before = readdirSync(claims).length
  await end(SOUND.replace('<ul>', `${more}${more}${less}<ul>`))
  expect(readdirSync(claims)).toHaveLength(before)
})
