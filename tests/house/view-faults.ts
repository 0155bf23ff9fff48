import type { SourceFile } from './files.ts'
import { ViewBodies } from './view-bodies.ts'
import { readView } from './view-code.ts'
import { givenUnevenly, type PageNames, ViewTree } from './view-tree.ts'
import { askCompiler, type NoneOf } from './view-types.ts'

const MAIL = ['mail/message.html', 'mail/message.txt']

/**
 * What the templates read that nothing gives them, and what they are given that they don't read: a sentence each.
 * `views` are the templates; the types of what pages are given, and the names of the pages sent, come from `source`.
 */
export function viewFaults(views: SourceFile[], source: SourceFile[]): string[] {
  const codes = views.map(readView)
  const tree = new ViewTree(codes)
  const sent = source.flatMap(({ text }) =>
    [...text.matchAll(/(?:\.page|drawPage)\(\s*'([^']+)'/g)].map(match => match[1]!),
  )
  const pages = [...new Set(sent)].map(page => tree.follow(page))
  const letters = MAIL.map(letter => tree.follow(letter))
  const asked = [
    ...pages.flatMap(askOfPage),
    ...letters.flatMap(letter => askOfReads(letter, 'LetterData')),
    unread('LetterData', MAIL.join(' and '), letters),
    {
      type: `Exclude<keyof Views, ${union(sent)}>`,
      fault: '$ is in Views, and no page is sent by that name',
    },
  ]
  const bodies = new ViewBodies(codes)
  for (const { page } of pages) bodies.add(page, dataOf(page))
  for (const { page } of letters) bodies.add(page, 'LetterData')
  const { faults, inBodies } = askCompiler(asked, bodies.source())
  return [...tree.faults, ...tree.leftOver(), ...givenUnevenly(codes), ...faults, ...bodies.faults(inBodies)]
}

function dataOf(page: string): string {
  return `Views['${page}'] & PageExtras & LayoutData`
}

function askOfPage(names: PageNames): NoneOf[] {
  const { page, leaks } = names
  const own = `Views['${page}']`
  const given = dataOf(page)
  const asked = [
    ...askOfReads(names, given),
    unread(own, page, [names]),
    {
      type: `Extract<KeysOf<${own}>, keyof LayoutData>`,
      fault: `${page} is given $, which every page has of its own: it never sees the one it is given`,
    },
    {
      type: `string extends KeysOf<${own}> ? 'any name' : never`,
      fault: `${page} is given $: its data must name what it holds`,
    },
  ]
  const leaking = [...leaks].map(([name, where]) => ({
    type: `Extract<KeysOf<${given}>, '${name}'>`,
    fault: `${page}: ${[...where].join(', ')} isn't given $, and finds that of the page`,
  }))
  return [...asked, ...leaking]
}

function askOfReads({ page, reads }: PageNames, given: string): NoneOf[] {
  return [...reads].map(([name, where]) => ({
    type: `Exclude<'${name}', KeysOf<${given}>>`,
    fault: `${page} isn't given $, which ${[...where].join(', ')} reads`,
  }))
}

function unread(data: string, page: string, names: PageNames[]): NoneOf {
  const read = names.flatMap(({ reads }) => [...reads.keys()])
  return {
    type: `Exclude<KeysOf<${data}>, ${union(read)}>`,
    fault: `${page} doesn't read $, which it is given`,
  }
}

function union(names: string[]): string {
  return names.map(name => `'${name}'`).join(' | ') || 'never'
}
