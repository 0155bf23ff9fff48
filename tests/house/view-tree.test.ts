import { expect, test } from 'vitest'
import { readView } from './view-code.ts'
import { withoutTexts } from './view-tokens.ts'
import { givenUnevenly, ViewTree } from './view-tree.ts'

const viewsOf = (texts: Record<string, string>) =>
  Object.entries(texts).map(([name, text]) => readView({ path: `views/${name}.eta`, text }))

/** What following the page `page` finds: names that it must be given, names it must not have, and faults. */
function follow(texts: Record<string, string>) {
  const views = viewsOf(texts)
  const tree = new ViewTree(views)
  const { reads, leaks } = tree.follow('page')
  return {
    reads: [...reads.keys()],
    leaks: [...leaks.keys()],
    faults: [...tree.faults, ...tree.leftOver(), ...givenUnevenly(views)],
  }
}

test('reads are found wherever code stands, and not in words or comments', () => {
  const [view] = viewsOf({
    page: `<p>it.text</p><% /* it.comment */ const { a, b: other, c = {} } = it; const { inner } = it.d
      const words = 'it.string and it' + \`it.words \${it.e + \`\${it.f}\`} it\` + it.g?.replace(/it.h'/g, "it") -%>
      <%= it?.i %><%~ include('/part', { ...it.j, k: it.l, 'it': \`it\` }) %>`,
  })
  expect(view!.reads.toSorted()).toEqual(['a', 'b', 'c', 'd', 'e', 'f', 'g', 'i', 'j', 'l'])
  expect(view!.unclear).toEqual([])
})

test('texts are taken out of code, and all the rest stays in its place', () => {
  const code = `a('b, }', \`c \${d({ e: 'f' })} g\`) / 2 // h`
  expect(withoutTexts(code)).toBe('a(      ,     {d({ e:     })}   ) / 2     ')
})

test('what a page reads is what it, its partials and its layout read and nobody on the way gives', () => {
  const found = follow({
    page: `<% layout('/layout', { title: it.a }) %><%~ include('/part', { given: it.b }) %><%~ include('/whole', it) %>`,
    layout: '<title><%= it.title %></title><%~ it.body %><%= it.business %>',
    part: "<%= it.given %><%= it.c %><%~ include('/inner', it) %>",
    inner: '<%= it.given %>',
    whole: '<% const { d } = it %><%= d %>',
  })
  expect(found).toEqual({ reads: ['a', 'b', 'business', 'c', 'd'], leaks: [], faults: [] })
})

test('a name that is given and not read, one that is missing, and a template in no page are told', () => {
  const { faults } = follow({
    page: `<%~ include('/part', { given: it.a }) %><%~ include('/gone', it) %>`,
    part: '',
    dead: '',
  })
  expect(faults).toEqual([
    "page brings in gone, which isn't there",
    "part doesn't read given, which page gives it",
    'dead is in no page',
  ])
})

test('what a partial may be told and wasn’t must not be a name of the page, nor one told to a partial around it', () => {
  const part =
    '<% /* { label: string, hint?: Record<string, string> }: a field. */ -%><%= it.label %><%= it.hint %>'
  const page = "<%~ include('/part', { label: it.a, hint: it.b }) %><%~ include('/part', { label: it.a }) %>"
  expect(follow({ page, part })).toEqual({ reads: ['a', 'b'], leaks: ['hint'], faults: [] })
  const around = {
    page: "<%~ include('/outer', { hint: 1 }) %>",
    outer: "<%= it.hint %><%~ include('/part', { label: 2 }) %>",
  }
  expect(follow({ ...around, part }).faults).toEqual([
    "part isn't given hint by outer, and finds that of page",
  ])
})

test('a partial that is given a name by some only must say so', () => {
  const page = "<%~ include('/part', { hint: it.a }) %><%~ include('/part', { }) %>"
  expect(follow({ page, part: '<%= it.hint %>' }).faults).toEqual([
    'part is given hint by some only: its first comment must say "hint?"',
  ])
})

test('what can’t be followed is told', () => {
  const { faults } = follow({ page: "<%~ include('/part', it.row) %><% other(it) %>", part: '' })
  expect(faults).toEqual([
    `page: what it does with "include('/part', it.row" can't be followed`,
    'page: what it does with "it)" can\'t be followed',
  ])
})
