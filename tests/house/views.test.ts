import { Eta } from 'eta'
import { expect, test } from 'vitest'
import { filesOf } from './files.ts'

const views = filesOf('views/**/*.eta')
const eta = new Eta({ useWith: false })

test.each(views.map(({ path, text }) => ({ path, text })))('$path compiles', ({ text }) => {
  expect(eta.compile(text)).toBeTypeOf('function')
})

// A mail is no page: it brings its styles along.
const pages = views.filter(({ path }) => !path.startsWith('views/mail/'))

test('no view holds a style or a script of its own: the pages forbid them', () => {
  const own = /<style|\sstyle=|\son[a-z]+="|javascript:|<script(?![^>]*\ssrc=)/i
  expect(pages.filter(({ text }) => own.test(text)).map(({ path }) => path)).toEqual([])
})

test('what is put in without escaping is a layout, a partial or a drawing', () => {
  const harmless = /^(include\(|it\.body$)|(rawing|icon|swatch|bar|svg|picture|scale|shape)\b/i
  const found = views
    .filter(({ path }) => !path.startsWith('views/mail/'))
    .flatMap(({ path, text }) =>
      [...text.matchAll(/<%~\s*([\s\S]*?)\s*%>/g)]
        .map(([, code]) => code!)
        .filter(code => !harmless.test(code) && !isPartial(code, text))
        .map(code => `${path}: ${code}`),
    )
  expect(found).toEqual([])
})

/** Whether it calls a function of the view's own that puts a partial in, as `const size = name => include(...)`. */
function isPartial(code: string, view: string): boolean {
  const name = /^(\w+)\(/.exec(code)?.[1]
  return name !== undefined && new RegExp(`const ${name} = [^=]*=> .*include\\(`).test(view)
}
